/** JMH benchmarks; how to run them and what they gave stands in {@code docs/benchmarks.md}. */
@NullMarked
package cutaway.benchmarks;

import org.jspecify.annotations.NullMarked;
