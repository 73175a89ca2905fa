/**
 * What a wall is made of: materials, and what thickness, density and stiffness fit the readings.
 *
 * <p>Model and source: docs/methods/board.md.
 */
@NullMarked
package cutaway.acoustics.board;

import org.jspecify.annotations.NullMarked;
