package org.wearledger.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.stats.CumulativeIncidence.Estimate;
import org.wearledger.stats.CumulativeIncidence.Subject;

/** Against R 4.2.2, survival 3.5-3, with {@code options(digits=12)}; the data are that package's. */
class CumulativeIncidenceTest {
    private static final double TOLERANCE = 1e-8;

    /** Weeks until leukaemia comes back, and whether it did: {@code aml} (Miller, Survival Analysis, 1997). */
    private static final double[][] AML = {{9, 1}, {13, 1}, {13, 0}, {18, 1}, {23, 1}, {28, 0}, {31, 1}, {34, 1}, {45, 0}, {48, 1}, {161, 0}, {5, 1},
        {5, 1}, {8, 1}, {8, 1}, {12, 1}, {16, 0}, {23, 1}, {27, 1}, {30, 1}, {33, 1}, {43, 1}, {45, 1}};

    /** Days from acceptance to transplant, to the end, and whether that was death: {@code subset(heart, transplant == 1)} (Crowley and Hu, 1977). */
    private static final double[][] HEART = {{1, 16, 1}, {36, 39, 1}, {51, 675, 1}, {12, 58, 1}, {26, 153, 1}, {17, 81, 1}, {37, 1387, 1}, {28, 308, 1},
        {20, 43, 1}, {18, 28, 1}, {8, 1032, 1}, {12, 51, 1}, {3, 733, 1}, {83, 219, 1}, {25, 1800, 0}, {71, 72, 1}, {16, 852, 1}, {17, 77, 1},
        {51, 1587, 0}, {23, 1572, 0}, {46, 100, 1}, {19, 66, 1}, {4.5, 5, 1}, {2, 53, 1}, {41, 1408, 0}, {58, 1322, 0}, {1, 45, 1}, {2, 996, 1},
        {21, 72, 1}, {36, 1142, 0}, {83, 980, 1}, {32, 285, 1}, {41, 188, 1}, {10, 61, 1}, {67, 942, 0}, {21, 343, 1}, {78, 916, 0}, {3, 68, 1},
        {27, 842, 0}, {33, 584, 1}, {12, 78, 1}, {57, 285, 1}, {3, 68, 1}, {10, 670, 0}, {5, 30, 1}, {31, 620, 0}, {4, 596, 0}, {27, 90, 1}, {5, 17, 1},
        {46, 545, 0}, {210, 515, 0}, {67, 96, 1}, {26, 482, 0}, {6, 445, 0}, {32, 80, 1}, {37, 334, 1}, {8, 397, 0}, {60, 110, 1}, {31, 370, 0},
        {139, 207, 1}, {160, 186, 1}, {310, 340, 0}, {28, 265, 0}, {4, 165, 1}, {2, 16, 1}, {13, 180, 0}, {21, 131, 0}, {96, 109, 0}, {38, 39, 0}};

    /**
     * Age in years, months until malignancy (1), death without it (2) or the last visit (0): {@code d <- subset(mgus2, mspike >= 2.2);
     * d$etime <- with(d, ifelse(pstat == 0, futime, ptime)); d$event <- with(d, ifelse(pstat == 0, 2 * death, 1))} (Kyle et al., 2002).
     */
    private static final int[][] MGUS = {{94, 46, 2}, {86, 57, 0}, {79, 136, 2}, {86, 2, 2}, {78, 75, 2}, {89, 7, 2}, {72, 3, 2}, {82, 94, 2},
        {77, 228, 1}, {71, 46, 2}, {65, 114, 2}, {58, 202, 2}, {77, 46, 2}, {80, 28, 2}, {79, 48, 2}, {76, 83, 0}, {65, 1, 2}, {39, 318, 0}, {80, 5, 1},
        {81, 6, 2}, {60, 142, 1}, {72, 128, 2}, {75, 64, 2}, {84, 42, 2}, {81, 65, 2}, {82, 30, 2}, {84, 75, 2}, {74, 64, 2}, {63, 102, 2}, {70, 52, 1},
        {57, 260, 2}, {69, 61, 0}, {71, 12, 2}, {72, 96, 2}, {70, 101, 0}, {70, 112, 0}, {71, 125, 0}, {71, 32, 2}, {69, 2, 2}, {42, 220, 0}, {75, 21, 2},
        {71, 145, 0}, {68, 177, 0}, {60, 190, 0}, {76, 29, 2}, {63, 87, 0}, {59, 138, 1}, {66, 238, 1}, {79, 76, 2}, {41, 97, 0}, {56, 16, 1},
        {58, 111, 1}, {57, 173, 0}, {62, 22, 1}, {66, 254, 0}, {74, 87, 2}, {72, 45, 2}, {43, 226, 0}, {41, 227, 0}, {74, 109, 1}, {85, 9, 1},
        {79, 26, 2}, {77, 121, 2}, {89, 15, 2}, {71, 57, 1}, {49, 78, 0}, {68, 53, 2}, {82, 38, 1}};

    private static CumulativeIncidence aml() {
        return CumulativeIncidence.of(Arrays.stream(AML).map(row -> new Subject(0, row[0], (int) row[1])).toList(), 1);
    }

    private static CumulativeIncidence heart() {
        return CumulativeIncidence.of(Arrays.stream(HEART).map(row -> new Subject(row[0], row[1], (int) row[2])).toList(), 1);
    }

    private static CumulativeIncidence mgus() {
        return CumulativeIncidence.of(Arrays.stream(MGUS).map(row -> new Subject(0, row[1], row[2])).toList(), 2);
    }

    private static List<Subject> mgusByAge() {
        return Arrays.stream(MGUS).map(row -> new Subject(12 * row[0], 12 * row[0] + row[1], row[2])).toList();
    }

    private static void assertEstimate(Estimate estimate, double probability, double deviation, double low, double high) {
        assertThat(estimate.probability()).isCloseTo(probability, within(TOLERANCE));
        assertThat(estimate.deviation()).isCloseTo(deviation, within(TOLERANCE));
        assertThat(estimate.bounds(0.95).low()).isCloseTo(low, within(TOLERANCE));
        assertThat(estimate.bounds(0.95).high()).isCloseTo(high, within(TOLERANCE));
    }

    /** {@code summary(survfit(Surv(time, status) ~ 1, aml, conf.type="log-log"), times=c(5, 13, 23, 31, 48))}. */
    @ParameterizedTest(name = "week {0}")
    @CsvSource({"5, 0.9130434782609, 0.0587533847558, 0.69494753753206, 0.977515669901",
        "13, 0.6956521739130, 0.0959438755422, 0.46564174976200, 0.841721291392",
        "23, 0.5465838509317, 0.1072506417401, 0.31925041397119, 0.726449173821",
        "31, 0.3864734299517, 0.1088588014949, 0.18283661864863, 0.587476914418",
        "48, 0.0828157349896, 0.0726618005035, 0.00695596679854, 0.286760367981"})
    void oneCauseIsKaplanAndMeierWithTies(double week, double survival, double deviation, double low, double high) {
        assertEstimate(aml().survival(week), survival, deviation, low, high);
        assertThat(aml().incidence(1, week).probability()).isCloseTo(1 - survival, within(TOLERANCE));
        assertThat(aml().incidence(1, week).deviation()).isCloseTo(deviation, within(TOLERANCE));
    }

    /** {@code summary(survfit(Surv(start, stop, event) ~ 1, subset(heart, transplant == 1), conf.type="log-log"), times=...)}. */
    @ParameterizedTest(name = "day {0}")
    @CsvSource({"10, 0.909090909091, 0.0866784172041, 0.5080802057699, 0.986673822668", "50, 0.684908448851, 0.0974915981051, 0.4533979376472, 0.834360128447",
        "100, 0.467875421482, 0.0801620759574, 0.3067099515449, 0.613760980487", "200, 0.406626621132, 0.0742013116308, 0.2621017980127, 0.546221522677",
        "500, 0.321095219194, 0.0652583803670, 0.1992643412794, 0.449318512613", "1400, 0.137972145725, 0.0538149324416, 0.0542767116933, 0.260154284340"})
    void lateEntry(double day, double survival, double deviation, double low, double high) {
        assertEstimate(heart().survival(day), survival, deviation, low, high);
    }

    /**
     * {@code d$e <- factor(d$event, 0:2, c("c", "pcm", "death")); summary(survfit(Surv(etime, e) ~ 1, d, conf.type="log-log"),
     * times=c(12, 60, 120, 180, 240))}: columns pcm and death of pstate, std.err, lower and upper. Its deviations are by the infinitesimal
     * jackknife, which is the same as Greenwood's where all enter at the start.
     */
    @ParameterizedTest(name = "cause {0}, month {1}")
    @CsvSource({"1, 12, 0.0294117647059, 0.0204891337064, 0.00555114706394, 0.0912396620129", "1, 60, 0.1029411764706, 0.0368511095406, 0.04525042355360, 0.1882660021953",
        "1, 120, 0.1399945943290, 0.0436044436410, 0.06842480463297, 0.2366061594485", "1, 180, 0.1811892765362, 0.0500846205312, 0.09577482306191, 0.2882447062550",
        "1, 240, 0.2763947643041, 0.0716022601092, 0.14830033844114, 0.4204480859549", "2, 12, 0.102941176471, 0.0368511095406, 0.0452504235536, 0.188266002195",
        "2, 60, 0.308823529412, 0.0560267211843, 0.2038790553631, 0.419718443652", "2, 120, 0.490397562534, 0.0628505105948, 0.3628718768088, 0.606016970289",
        "2, 180, 0.551045289117, 0.0642073655302, 0.4171793887754, 0.666156675316", "2, 240, 0.580797004044, 0.0662190474781, 0.4405314757025, 0.697578355984"})
    void twoCauses(int cause, double month, double incidence, double deviation, double low, double high) {
        assertEstimate(mgus().incidence(cause, month), incidence, deviation, low, high);
    }

    /**
     * By age in months, of those unharmed at 720: {@code d$a1 <- d$age * 12; d$a2 <- d$a1 + d$etime; d2 <- subset(d, a2 > 720);
     * d2$a1 <- pmax(d2$a1, 720); summary(survfit(Surv(a1, a2, e) ~ 1, d2, id=id), times=c(780, 840, 900, 960, 1020))$pstate}.
     */
    @ParameterizedTest(name = "age {0}")
    @CsvSource({"780, 0.909090909091, 0.0909090909091, 0.000000000000", "840, 0.712962962963, 0.1603535353535, 0.126683501684",
        "900, 0.389583333333, 0.2626828177609, 0.347733848906", "960, 0.263844797178, 0.2843263362795, 0.451828866542",
        "1020, 0.121278572908, 0.3094626780156, 0.569258749077"})
    void twoCausesWithLateEntry(double age, double unharmed, double first, double second) {
        CumulativeIncidence incidence = CumulativeIncidence.of(from720(mgusByAge()), 2);
        assertThat(incidence.survival(age).probability()).isCloseTo(unharmed, within(TOLERANCE));
        assertThat(incidence.incidence(1, age).probability()).isCloseTo(first, within(TOLERANCE));
        assertThat(incidence.incidence(2, age).probability()).isCloseTo(second, within(TOLERANCE));
    }

    /** Those that have come unharmed to that age, under observation from it on. */
    private static List<Subject> from720(List<Subject> subjects) {
        return subjects.stream().filter(subject -> subject.exit() > 720).map(subject -> new Subject(Math.max(720, subject.entry()), subject.exit(), subject.cause())).toList();
    }

    @Test
    void endsAreCountedByCause() {
        assertThat(List.of(mgus().ends(0), mgus().ends(1), mgus().ends(2))).containsExactly(50, 13, 37);
        assertThat(aml().ages()).startsWith(5, 8, 9, 12, 13).doesNotContain(16, 161);
    }

    @Test
    void theOrderOfSubjectsChangesNoBit() {
        List<Subject> shuffled = new ArrayList<>(mgusByAge());
        Collections.shuffle(shuffled, new Random(1));
        CumulativeIncidence one = CumulativeIncidence.of(from720(mgusByAge()), 2);
        CumulativeIncidence other = CumulativeIncidence.of(from720(shuffled), 2);
        for (double age : one.ages()) {
            assertThat(other.incidence(2, age)).isEqualTo(one.incidence(2, age));
        }
    }

    /** All end by one cause and none is lost: incidence 1 for certain, whatever the rounding on the way. */
    @Test
    void whatIsCertainHasNoDeviation() {
        List<Subject> all = new ArrayList<>();
        for (int age = 1; age <= 17; age++) {
            all.add(new Subject(0, age, 1));
        }
        Estimate last = CumulativeIncidence.of(all, 1).incidence(1, 17);
        assertThat(last.probability()).isCloseTo(1, within(1e-12));
        assertThat(last.deviation()).isCloseTo(0, within(1e-7));
    }

    @Test
    void nothingSeenIsNoIncidence() {
        CumulativeIncidence none = CumulativeIncidence.of(List.of(), 2);
        assertThat(none.survival(100)).isEqualTo(new Estimate(1, 0));
        assertThat(none.incidence(1, 100).bounds(0.95)).isEqualTo(new Bounds(0, 0));
        assertThatThrownBy(() -> new Subject(3, 3, 1)).hasMessage("entry must be below exit and cause not negative: 3.0, 3.0, 1");
        assertThatThrownBy(() -> CumulativeIncidence.of(List.of(new Subject(0, 1, 3)), 2)).hasMessage("cause 3 is above 2");
    }
}
