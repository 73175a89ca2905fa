/**
 * What can be heard.
 *
 * <p>Model and source: docs/methods/hearing.md.
 */
@NullMarked
package cutaway.acoustics.hearing;

import org.jspecify.annotations.NullMarked;
