/**
 * What the box does to the air behind the diaphragm.
 *
 * <p>Answers: which compliance, tuning and losses a box shows. Needs: the drive unit's joint fit,
 * for which the kinds of {@link cutaway.acoustics.box.Loading} are rear loads. The model is in
 * {@code docs/methods/box.md}.
 */
@NullMarked
package cutaway.acoustics.box;

import org.jspecify.annotations.NullMarked;
