package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CsvWriterTest {
    @ParameterizedTest
    @CsvSource(textBlock = """
        "=1+1",       "'=1+1"
        "+44",        "'+44"
        "-2",         "'-2"
        "@SUM(A1)",   "'@SUM(A1)"
        "LT-001",     "LT-001"
        "a=b",        "a=b"
        "'=1",        "'=1"
        "＝1+1",      "'＝1+1"
        "a;=1;-2; +3", "a;'=1;'-2; +3"
        "a,=1",       "a,=1"
        "",           ""
        """, quoteCharacter = '"')
    void aTextThatWouldRunAsFormulaIsNeutralised(String text, String expected) {
        assertThat(CsvWriter.neutralised(text, CsvForm.COMMA)).isEqualTo(expected);
    }

    @Test
    void tabAndCarriageReturnAreNeutralisedToo() {
        assertThat(CsvWriter.neutralised("\t=1", CsvForm.COMMA)).isEqualTo("'\t=1");
        assertThat(CsvWriter.neutralised("\r=1", CsvForm.COMMA)).isEqualTo("'\r=1");
    }

    @Test
    void numbersDatesAndTimesHaveOneForm() throws IOException {
        assertThat(csv(Column.decimal("n", "N", "", 2, (Double n) -> n), List.of(-1.005, 1e9, 0.125,
            Double.NaN, Double.POSITIVE_INFINITY))).isEqualTo("n\n-1.01\n1000000000.00\n0.13\n\"\"\n\"\"\n");
        assertThat(csv(Column.date("d", "D", (LocalDate d) -> d), List.of(LocalDate.of(2025, 3, 1),
            LocalDate.of(12025, 3, 1)))).isEqualTo("d\n2025-03-01\n\"\"\n");
        assertThat(csv(Column.instant("i", "I", (Instant i) -> i), List.of(Sweeps.COLLECTED)))
            .isEqualTo("i\n2025-03-30T08:15:00Z\n");
    }

    @Test
    void forSpreadsheetsThereAreSemicolonsDecimalCommasAndAMark() throws IOException {
        StringBuilder out = new StringBuilder();
        new CsvWriter(CsvForm.SEMICOLON).write(new Table<>("t", List.of(Column.text("name", "Name", (String n) -> n), Column.decimal("tb", "TB", "", 2, n -> 1234.5),
            Column.money("cost", "Cost", "EUR", n -> new BigDecimal("-39")), Column.integer("hours", "Hours", "", n -> 3100), Column.date("on", "On", n -> LocalDate.of(2025, 3, 1))),
            List.of("a;b", "1,5", "=1", "a,@1")), out);
        assertThat(out.toString()).isEqualTo("\uFEFFname;tb;cost;hours;on\n\"a;b\";1234,50;-39,00;3100;2025-03-01\n1,5;1234,50;-39,00;3100;2025-03-01\n'=1;1234,50;-39,00;3100;2025-03-01\na,'@1;1234,50;-39,00;3100;2025-03-01\n");
    }

    /** Against the JDK's exact decimals, near the halves above all, where the quick way may not decide. */
    @Test
    void decimalsAreRoundedHalfUpAsTheyAreWritten() {
        Random random = new Random(7);
        for (int i = 0; i < 100_000; i++) {
            int places = i % 7;
            double half = (Math.rint(random.nextGaussian() * 1e5) + 0.5) / Math.pow(10, places);
            double number = i % 3 == 0 ? half : i % 3 == 1 ? Math.nextUp(half) : random.nextGaussian() * Math.pow(10, random.nextInt(14) - 4);
            assertThat(Column.decimal("n", "N", "", places, (Double n) -> n).valueOf(number)).isEqualTo(new BigDecimal(Double.toString(number)).setScale(places, RoundingMode.HALF_UP));
        }
    }

    @Test
    void onlyTextColumnsAreNeutralised() throws IOException {
        Table<Integer> table = new Table<>("t", List.of(Column.integer("n", "N", "", (Integer n) -> n),
            Column.text("t", "T", (Integer n) -> "" + n)), List.of(-7));
        StringBuilder out = new StringBuilder();
        new CsvWriter(CsvForm.COMMA).write(table, out);
        assertThat(out).hasToString("n,t\n-7,'-7\n");
    }

    private static <T> String csv(Column<T> column, List<T> rows) throws IOException {
        StringBuilder out = new StringBuilder();
        new CsvWriter(CsvForm.COMMA).write(new Table<>("t", List.of(column), rows), out);
        return out.toString();
    }
}
