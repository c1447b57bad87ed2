/**
 * Nouns to the bytes of the fixture protocol and back; the bytes themselves are told in {@code
 * firmware-protocol/SPEC.md}, whose clauses are quoted here as M1, M2 and so on.
 *
 * <p>Start with {@link org.jointwalk.protocol.Frame}, which becomes bytes, and {@link
 * org.jointwalk.protocol.Parser}, which makes frames of bytes in any pieces. What a frame carries
 * is a {@link org.jointwalk.protocol.Message}: a request, an answer, a streamed message or a
 * notice. {@link org.jointwalk.protocol.CapabilityItems}, {@link
 * org.jointwalk.protocol.Declaration}, {@link org.jointwalk.protocol.ProgramWriter} and {@link
 * org.jointwalk.protocol.Results} translate between messages and the nouns of the program. What a
 * fixture does, as far as it is computation, is {@link org.jointwalk.protocol.RequestLedger},
 * {@link org.jointwalk.protocol.ProgramReader}, {@link org.jointwalk.protocol.StepCheck}, {@link
 * org.jointwalk.protocol.Proofs} and {@link org.jointwalk.protocol.Extension}. Uses the rows above;
 * knows no port, socket, thread or clock.
 */
@NullMarked
package org.jointwalk.protocol;

import org.jspecify.annotations.NullMarked;
