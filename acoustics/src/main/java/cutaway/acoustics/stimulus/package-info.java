/**
 * Test signals, and what a recording is of one: where it lies in time, its harmonics, and what is
 * left once they are taken out.
 *
 * <p>Begin at {@link cutaway.acoustics.stimulus.TestSignal}. Model and source:
 * docs/methods/noise.md.
 */
@NullMarked
package cutaway.acoustics.stimulus;

import org.jspecify.annotations.NullMarked;
