/**
 * The air the measurement was made in: density, sound speed, and how surely.
 *
 * <p>Begin at {@link cutaway.acoustics.air.Air#of}. Needs temperature, pressure, humidity.
 */
@NullMarked
package cutaway.acoustics.air;

import org.jspecify.annotations.NullMarked;
