/** What can be wrong with what a user gave: place, cause and remedy. */
@NullMarked
package cutaway.bench.problem;

import org.jspecify.annotations.NullMarked;
