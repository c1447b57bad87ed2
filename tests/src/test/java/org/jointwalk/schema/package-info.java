/**
 * Whether the JSON Schemas that editors use and the readers of the program say the same of a file.
 */
@NullMarked
package org.jointwalk.schema;

import org.jspecify.annotations.NullMarked;
