/**
 * Invented loudspeakers simulated in time, sound or with a defect, and recorded with microphones:
 * what the likelihoods of clues are counted on. Nothing here was measured.
 *
 * <p>Begin at {@link cutaway.benchmarks.population.Population}. Model: docs/methods/population.md.
 */
@NullMarked
package cutaway.benchmarks.population;

import org.jspecify.annotations.NullMarked;
