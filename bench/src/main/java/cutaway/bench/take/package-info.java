/**
 * Takes: curve files and recordings, read but never altered.
 *
 * <p>Answers: what stands in a file that some tester's tool wrote. Begin at {@link
 * cutaway.bench.take.CurveFile} for text and {@link cutaway.bench.take.SoundFile} for sound.
 */
@NullMarked
package cutaway.bench.take;

import org.jspecify.annotations.NullMarked;
