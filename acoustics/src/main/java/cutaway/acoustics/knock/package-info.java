/**
 * What a wall tells when it is knocked on: taps, and the modes that ring after them.
 *
 * <p>Model and source: docs/methods/knock.md.
 */
@NullMarked
package cutaway.acoustics.knock;

import org.jspecify.annotations.NullMarked;
