package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.Accounting;

class ExitCodeTest {
    /** A refused row of a price list or inventory makes a budget too small, and nothing else would say so. */
    @ParameterizedTest
    @CsvSource({"0, 0, 0, 0, 5", "3, 1, 0, 0, 5", "3, 0, 1, 0, 5", "3, 0, 0, 1, 5", "3, 0, 0, 0, 0"})
    void whateverWasRefusedShowsInTheExitCode(int exitCode, long filesRefused, long recordsRefused, long rowsRefused, long kept) {
        assertThat(ExitCode.of(sums(filesRefused, recordsRefused, rowsRefused, kept))).isEqualTo(exitCode);
    }

    private static Accounting sums(long filesRefused, long recordsRefused, long rowsRefused, long kept) {
        return new Accounting(1 + filesRefused, 1, filesRefused, 5 + recordsRefused, recordsRefused, 5, kept, 5 - kept, 0, 1, 3 + rowsRefused, 3, rowsRefused);
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
        assertThat(ExitCode.reached(FailOn.PAST_RATING, sums(filesRefused, recordsRefused, rowsRefused, kept))).isEqualTo(line);
    }
}
