/**
 * Tests of the virtual bench: its solver against tables, invariants and ngspice, its fixture
 * against what the nouns promise.
 */
@NullMarked
package org.jointwalk.simulator;

import org.jspecify.annotations.NullMarked;
