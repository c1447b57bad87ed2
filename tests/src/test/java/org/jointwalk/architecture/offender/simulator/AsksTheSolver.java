package org.jointwalk.architecture.offender.simulator;

import org.jointwalk.architecture.offender.solve.FirstShown;

/** Its package has no package-info either. */
record AsksTheSolver(FirstShown solver) {}
