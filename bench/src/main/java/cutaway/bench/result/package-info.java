/** What exams found, and what each finding rests on. */
@NullMarked
package cutaway.bench.result;

import org.jspecify.annotations.NullMarked;
