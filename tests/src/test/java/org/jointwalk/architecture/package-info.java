/**
 * The house rule as tests: which package may use which, and what of the outside world each may
 * touch.
 *
 * <p>Start reading at {@code House}, the table; {@code HouseRules} turns it into checks, {@code
 * HouseRulesTest} shows on planted offenders that each check bites, and {@code ProgramHouseTest}
 * holds the program to them.
 */
@NullMarked
package org.jointwalk.architecture;

import org.jspecify.annotations.NullMarked;
