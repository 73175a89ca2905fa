/**
 * Modes of what vibrates, by finite elements of high order.
 *
 * <p>Answers: at which frequencies and in which shapes a body swings whose stiffness and mass are
 * given element by element. Needs: nothing else here. The method is in {@code
 * docs/methods/cavity.md}.
 */
@NullMarked
package cutaway.acoustics.modes;

import org.jspecify.annotations.NullMarked;
