/**
 * The sheet, {@code dossier.yaml}: reading it, checking it, changing it.
 *
 * <p>Answers: what the tester wrote, with line and column for everything that is wrong. Begin at
 * {@link cutaway.bench.sheet.SheetReader}. The keys are described in {@code docs/sheet.md} and by
 * the JSON Schema beside this package.
 */
@NullMarked
package cutaway.bench.sheet;

import org.jspecify.annotations.NullMarked;
