@NullMarked
package org.jointwalk.upkeep;

import org.jspecify.annotations.NullMarked;
