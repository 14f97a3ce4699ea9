package org.wearledger.history;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.Reading;
import org.wearledger.report.ProblemWords;

/**
 * What a fall, a jump or a changed capacity does to a drive's total, in TB. Written in data units: 1 TB is 1,953,125; a capacity of
 * 500,000 is 256 GB. The first six readings of most rows rise by 24 TB a quarter to 143.36 of a rated 150.
 */
class FallsTest {
    private static final Limits LIMITS = new Limits(Instant.parse("2026-01-01T00:00:00Z"), null);
    private static final String SIX = "2024-01-01 written=45625000 used=95; 2024-04-01 written=92500000 used=95; 2024-07-01 written=139375000 used=95; "
        + "2024-10-01 written=186250000 used=95; 2025-01-01 written=233125000 used=95; 2025-04-01 written=280000000 used=95; ";

    @ParameterizedTest(name = "{0}: {2}")
    @CsvSource(delimiter = '|', textBlock = """
        five data units lower a minute later | 2025-04-01T00:01:00Z written=279999995 used=95 | 143.36 | FALL_DOUBTFUL
        7 percent lower a quarter later      | 2025-07-01 written=260400000 used=95 | 143.36 | FALL_DOUBTFUL
        the last digit missing               | 2025-07-01 written=32687500 used=96 | 143.36 | FALL_DOUBTFUL
        near zero, used as before            | 2025-07-01 written=40000000 used=95 | 163.84 | RESET_UNCONFIRMED
        near zero, used too                  | 2025-07-01 written=40000000 used=3 | 163.84 | RESET_UNCONFIRMED
        a tenth of a digit, then more        | 2025-07-01 written=32687500 used=96; 2025-10-01 written=373750000 used=97 | 191.36 | COUNTER_OUT_OF_LINE
        a stale copy, then more              | 2025-07-01 written=186250000 used=95; 2025-10-01 written=373750000 used=97 | 191.36 | COUNTER_OUT_OF_LINE
        a digit too many, then as before     | 2025-07-01 written=900000000 used=96; 2025-10-01 written=373750000 used=97 | 191.36 | COUNTER_OUT_OF_LINE
        four TB within a second              | 2025-04-01T00:00:01Z written=287812500 used=95 | 147.36 | INCREASE_DOUBTFUL
        used as what remains                 | 2025-07-01 written=326875000 used=3 | 167.36 | PERCENTAGE_USED_FELL
        """)
    void afterSixReadings(String what, String more, String terabytes, String kinds) {
        assertComesTo(SIX + more, terabytes, kinds);
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
        a reset that hours prove       | 2024-01-01 written=9000000 hours=9000 cycles=900; 2024-04-01 written=500000 hours=400 cycles=90 | 4.864 | COUNTER_WENT_BACK
        a young drive, hours prove it  | 2024-01-01 written=900000 hours=500; 2024-04-01 written=800000 hours=450 | 0.870 | COUNTER_WENT_BACK
        a busy quarter, then a reset   | 2024-01-01 written=390625 hours=100; 2024-04-01 written=585938 hours=600; 2024-07-01 written=5859375 hours=2600; 2024-10-01 written=683594 hours=700 | 3.350 | COUNTER_WENT_BACK
        a digit too many, then a reset | 2024-01-01 written=19531250 hours=9000; 2024-04-01 written=21484375 hours=9500; 2024-07-01 written=214843750 hours=10000; 2024-10-01 written=976563 hours=300 | 110.500 | INCREASE_DOUBTFUL COUNTER_WENT_BACK
        hours fell, but not to anew    | 2024-01-01 written=9000000 hours=9000; 2024-02-01 written=8900000 hours=8900 | 4.608 | FALL_DOUBTFUL
        a digit missing, hours go on   | 2024-01-01 written=9000000 hours=9000; 2024-04-01 written=950000 hours=9400; 2024-07-01 written=9900000 hours=9800 | 5.069 | COUNTER_OUT_OF_LINE
        one young drive, nothing known | 2024-01-01 written=900000; 2024-04-01 written=800000; 2024-07-01 written=1700000 | 0.870 | FALL_DOUBTFUL
        a total that came to a tenth   | 2024-01-01 written=9000000; 2024-04-01 written=950000 | 5.094 | RESET_UNCONFIRMED
        used rose by 80 without writes | 2024-01-01 written=9000000 used=10; 2024-04-01 written=9900000 used=90 | 5.069 | MEASURES_PARTED
        tenfold writes, used as before | 2024-01-01 written=9000000 used=10; 2024-04-01 written=90000000 used=11 | 46.080 | INCREASE_DOUBTFUL MEASURES_PARTED
        a tenfold jump of a steady one | 2024-01-01 written=9000000; 2024-04-01 written=9900000; 2024-07-01 written=10800000; 2024-10-01 written=117000000 | 59.904 | INCREASE_DOUBTFUL
        four times as busy as before   | 2024-01-01 written=9000000; 2024-04-01 written=9900000; 2024-07-01 written=10800000; 2024-10-01 written=14400000 | 7.373 |
        from the shelf, hours agree    | 2024-01-01 written=900000 hours=900; 2024-04-01 written=900000 hours=900; 2024-07-01 written=7000000 hours=2800 | 3.584 |
        more than hours can account for | 2024-01-01 written=900000 hours=900; 2024-04-01 written=900000 hours=900; 2024-07-01 written=30000000 hours=2100 | 15.360 | INCREASE_DOUBTFUL
        capacity doubled               | 2024-01-01 capacity=500000 written=9000000; 2024-04-01 capacity=1000000 written=9900000 | 5.069 | CAPACITY_DOUBTFUL
        MB mapped as GB                | 2024-01-01 capacity=476837158 written=9000000 | 4.608 | CAPACITY_DOUBTFUL
        GB mapped as GiB               | 2024-01-01 capacity=536871 written=9000000 | 4.608 | CAPACITY_DOUBTFUL
        500 GB                         | 2024-01-01 capacity=976773 written=9000000 | 4.608 |
        """)
    void otherHistories(String what, String readings, String terabytes, String kinds) {
        assertComesTo(readings, terabytes, kinds);
    }

    private static void assertComesTo(String readings, String terabytes, String kinds) {
        List<Reading> built = Arrays.stream(readings.split(";")).map(String::strip).map(HistoryBoundsTest::reading).toList();
        HistoryOutcome outcome = DriveHistories.build(Sample.ID, built, LIMITS);
        assertThat(outcome.problems()).extracting(problem -> problem.kind().name()).containsExactlyInAnyOrderElementsOf(kinds == null ? List.of() : List.of(kinds.split(" ")));
        BigDecimal total = new BigDecimal(outcome.history().latest().totalBytesWritten()).movePointLeft(12);
        BigDecimal expected = new BigDecimal(terabytes);
        assertThat(total.setScale(expected.scale(), RoundingMode.HALF_UP)).as(outcome.problems().stream().map(problem -> ProblemWords.of(problem).sentence()).toList().toString()).isEqualTo(expected);
    }
}
