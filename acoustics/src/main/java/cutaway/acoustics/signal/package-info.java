/**
 * From two-channel captures to transfer functions.
 *
 * <p>Answers: what one channel is of the other at each frequency and how surely, after gain, skew,
 * hum, offset and bad stretches are taken out. Needs: samples block by block. Begin at {@link
 * cutaway.acoustics.signal.Capture}. The method is in {@code docs/methods/captures.md}.
 */
@NullMarked
package cutaway.acoustics.signal;

import org.jspecify.annotations.NullMarked;
