/**
 * The folder that holds everything known about one unit, and what Cutaway made of it.
 *
 * <p>Begin at {@link cutaway.bench.dossier.Dossier}. Takes are never altered; what is written goes
 * by temporary file, sync and rename.
 */
@NullMarked
package cutaway.bench.dossier;

import org.jspecify.annotations.NullMarked;
