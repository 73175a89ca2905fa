/** What is that noise? Sounds read and checked, suspects, levels, clips and the next test. */
@NullMarked
package cutaway.bench.noise;

import org.jspecify.annotations.NullMarked;
