/**
 * What a level meter reads off a sound: weighted levels, bands, the loudness of a programme; how
 * much a microphone gives for each pascal, and by how much one recording is louder and later than
 * another.
 *
 * <p>Sounds are plain samples with their rate; levels are in dB. Begin at {@link
 * cutaway.acoustics.meter.PowerSpectrum}. Model and source: docs/methods/meters.md.
 */
@NullMarked
package cutaway.acoustics.meter;

import org.jspecify.annotations.NullMarked;
