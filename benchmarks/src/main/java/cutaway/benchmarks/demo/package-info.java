/**
 * Makes the takes of the demo dossier by integrating an invented loudspeaker in the time domain,
 * with none of the formulas that the fit uses. Begin at {@link
 * cutaway.benchmarks.demo.DemoGenerator}.
 */
@NullMarked
package cutaway.benchmarks.demo;

import org.jspecify.annotations.NullMarked;
