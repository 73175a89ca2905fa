/**
 * Finds the values that explain measurements best, and how sure they are.
 *
 * <p>Answers: which parameters minimize a weighted sum of squared residuals, and what covariance
 * follows. Needs: residuals with an analytic Jacobian ({@link
 * cutaway.acoustics.estimate.Residuals}). Begin at {@link
 * cutaway.acoustics.estimate.LevenbergMarquardt}. Nothing here knows of loudspeakers.
 */
@NullMarked
package cutaway.acoustics.estimate;

import org.jspecify.annotations.NullMarked;
