/** The page served on loopback. Begin at {@link cutaway.app.page.BenchServer}. */
@NullMarked
package cutaway.app.page;

import org.jspecify.annotations.NullMarked;
