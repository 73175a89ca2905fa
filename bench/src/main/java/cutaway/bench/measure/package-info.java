/**
 * Quantities as people write them.
 *
 * <p>Answers: which value, uncertainty and unit "12.5 lb" or "164 mm ± 2 mm" stands for. Begin at
 * {@link cutaway.bench.measure.Reading#parse}.
 */
@NullMarked
package cutaway.bench.measure;

import org.jspecify.annotations.NullMarked;
