package org.jointwalk.upkeep;

import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;

/** A step with what was read. */
record Taken(Step step, Reading reading) {}
