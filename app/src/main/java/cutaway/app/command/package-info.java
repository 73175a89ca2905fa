/**
 * The command line: what is typed, what is printed, how it exits. Begin at {@link
 * cutaway.app.command.Main}.
 */
@NullMarked
package cutaway.app.command;

import org.jspecify.annotations.NullMarked;
