/** Work done once, or ahead of being asked for. */
@NullMarked
package cutaway.bench.work;

import org.jspecify.annotations.NullMarked;
