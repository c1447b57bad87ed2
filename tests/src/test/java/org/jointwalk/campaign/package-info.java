/** Tests of the campaigns, and small campaigns that every build runs. */
@NullMarked
package org.jointwalk.campaign;

import org.jspecify.annotations.NullMarked;
