/**
 * The exams that join a dossier to the physics.
 *
 * <p>Each is a pure function of sheet and takes to findings, notices and curves: {@link
 * cutaway.bench.exam.Bench} loads takes, {@link cutaway.bench.exam.DriveUnitExam} and {@link
 * cutaway.bench.exam.BoxExam} answer a tester's first two questions, {@link
 * cutaway.bench.exam.PredictionExam} says what to expect, {@link cutaway.bench.exam.ClaimExam}
 * judges.
 */
@NullMarked
package cutaway.bench.exam;

import org.jspecify.annotations.NullMarked;
