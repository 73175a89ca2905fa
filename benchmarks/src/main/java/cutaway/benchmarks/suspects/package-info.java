/**
 * Counts clues on the invented population, and tells on units that were not counted how often the
 * suspects' odds are right: docs/methods/suspects.md, docs/methods/accuracy.md.
 */
@NullMarked
package cutaway.benchmarks.suspects;

import org.jspecify.annotations.NullMarked;
