/**
 * Programs from outside that some tests need, and what happens where one is missing.
 *
 * <p>Start reading at {@link org.jointwalk.tool.NeedsTool}.
 */
@NullMarked
package org.jointwalk.tool;

import org.jspecify.annotations.NullMarked;
