/**
 * What page and report show, as plain records, and the report itself. Begin at {@link
 * cutaway.app.report.Report}.
 */
@NullMarked
package cutaway.app.report;

import org.jspecify.annotations.NullMarked;
