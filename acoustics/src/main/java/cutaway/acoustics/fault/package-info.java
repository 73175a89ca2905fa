/**
 * Noises that do not belong: what is left of a recording once the played signal and its ordinary
 * distortion are out, and what that tells of where it comes from.
 *
 * <p>Begin at {@link cutaway.acoustics.fault.NoiseTake}. Model and source: docs/methods/noise.md.
 */
@NullMarked
package cutaway.acoustics.fault;

import org.jspecify.annotations.NullMarked;
