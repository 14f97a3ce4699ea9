package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.Accounting;
import org.wearledger.model.Finding;
import org.wearledger.model.Problem;
import org.wearledger.model.SourcePlace;

class ExitCodeTest {
    /** A refused row of a price list or inventory makes a budget too small, and nothing else would say so. */
    @ParameterizedTest
    @CsvSource({"0, 0, 0, 0, 5", "3, 1, 0, 0, 5", "3, 0, 1, 0, 5", "3, 0, 0, 1, 5", "3, 0, 0, 0, 0"})
    void whateverWasRefusedShowsInTheExitCode(int exitCode, long filesRefused, long recordsRefused, long rowsRefused, long kept) {
        assertThat(ExitCode.of(sums(filesRefused, recordsRefused, rowsRefused, kept), List.of())).isEqualTo(exitCode);
    }

    /** What stood behind the fault may be the machine that is past its rating. */
    @ParameterizedTest
    @CsvSource({"0, 0", "3, 1"})
    void aFileReadInPartShowsInTheExitCode(int exitCode, long filesReadInPart) {
        Accounting sums = new Accounting(2 + filesReadInPart, 2, filesReadInPart, 0, 5, 0, 5, 5, 0, 0, 0, 0, 0, 0);
        assertThat(ExitCode.of(sums, List.of())).isEqualTo(exitCode);
    }

    private static Accounting sums(long filesRefused, long recordsRefused, long rowsRefused, long kept) {
        return new Accounting(1 + filesRefused, 1, 0, filesRefused, 5 + recordsRefused, recordsRefused, 5, kept, 5 - kept, 0, 1, 3 + rowsRefused, 3, rowsRefused);
    }

    /** The script of each-quarter.md looks for how the line begins, whatever the code. */
    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
        0 | 0 | 0 | 5 | Done; a machine is at "past-rating" or worse: exit code 4
        1 | 0 | 0 | 5 | Done, with files or records refused: see problems.csv; a machine is at "past-rating" or worse: exit code 4
        0 | 2 | 0 | 5 | Done, with files or records refused: see problems.csv; a machine is at "past-rating" or worse: exit code 4
        0 | 0 | 1 | 5 | Done, with 1 row of side tables refused: see problems.csv; a machine is at "past-rating" or worse: exit code 4
        0 | 1 | 2 | 5 | Done, with files or records refused, and 2 rows of side tables: see problems.csv; a machine is at "past-rating" or worse: exit code 4
        0 | 0 | 0 | 0 | Done, but no reading was kept: see problems.csv; a machine is at "past-rating" or worse: exit code 4
        """)
    void aStandingReachedDoesNotHideRefusals(long filesRefused, long recordsRefused, long rowsRefused, long kept, String line) {
        assertThat(ExitCode.reached(FailOn.PAST_RATING, sums(filesRefused, recordsRefused, rowsRefused, kept), List.of())).isEqualTo(line);
    }

    /** A mapping that does not fit makes standings look better than they are, and a scheduler must see it. */
    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
        0 | Done, with columns missing: exit code 3, see problems.csv | Done, with columns missing: see problems.csv; a machine is at "past-rating" or worse: exit code 4
        2 | Done, with 2 rows of side tables refused, and columns missing: exit code 3, see problems.csv | Done, with 2 rows of side tables refused, and columns missing: see problems.csv; a machine is at "past-rating" or worse: exit code 4
        """)
    void missingColumnsAreNotDoneInSilence(long rowsRefused, String last, String lastWithStanding) {
        List<Problem> problems = List.of(Problem.of(Finding.COLUMN_MISSING_NOW, SourcePlace.wholeFile("a.csv"), ""));
        assertThat(ExitCode.of(sums(0, 0, rowsRefused, 5), problems)).isEqualTo(3);
        assertThat(ExitCode.refusals(sums(0, 0, rowsRefused, 5), problems, List.of())).isEqualTo(last);
        assertThat(ExitCode.reached(FailOn.PAST_RATING, sums(0, 0, rowsRefused, 5), problems)).isEqualTo(lastWithStanding);
    }
}
