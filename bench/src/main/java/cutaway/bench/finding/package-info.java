/**
 * What a dossier yields: findings, notices, cross-checks, judged claims, curves, next readings.
 *
 * <p>Plain values; what the page shows and what the JSON holds come from these same objects.
 */
@NullMarked
package cutaway.bench.finding;

import org.jspecify.annotations.NullMarked;
