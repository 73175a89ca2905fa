/**
 * What a solve looks like on one screen of a terminal. Begin at {@link
 * cutaway.app.summary.Summary}.
 */
@NullMarked
package cutaway.app.summary;

import org.jspecify.annotations.NullMarked;
