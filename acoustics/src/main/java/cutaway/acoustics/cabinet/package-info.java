/**
 * What the walls of a box and the air inside it do.
 *
 * <p>Answers: which standing waves a box of a given shape has, what lining does to them, and how
 * they meet cone and port; at which frequencies its walls swing. Needs: modes. The models are in
 * {@code docs/methods/cavity.md} and {@code docs/methods/panel.md}.
 */
@NullMarked
package cutaway.acoustics.cabinet;

import org.jspecify.annotations.NullMarked;
