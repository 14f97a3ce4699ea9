package org.wearledger.simulate;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.math.BigInteger;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.lifecycle.AfterContainer;
import net.jqwik.api.lifecycle.BeforeContainer;
import org.wearledger.intake.PackedReading;
import org.wearledger.intake.ReportFile;
import org.wearledger.intake.ReportReader;
import org.wearledger.intake.WholeFile;
import org.wearledger.model.Attachment;
import org.wearledger.model.Drive;
import org.wearledger.model.Health;
import org.wearledger.model.Machine;
import org.wearledger.model.Problem;
import org.wearledger.model.Reading;
import org.wearledger.model.SourcePlace;

/** Complete readings written in every form and read back. */
class RoundTripPropertyTest {
    private static final SourcePlace ANYWHERE = SourcePlace.wholeFile("-");
    private static final long UNSIGNED_32_MAX = 0xFFFF_FFFFL;

    private static Path folder;

    @BeforeContainer
    static void folder() throws IOException {
        folder = Files.createTempDirectory("round-trip");
    }

    @AfterContainer
    static void clean() throws IOException {
        org.apache.commons.io.FileUtils.deleteDirectory(folder.toFile());
    }

    /** Text that has been through a spreadsheet or a script: separators, quotes, letters of other scripts; never blank. Of characters that can be seen, since hidden ones are taken out and told. */
    private static Arbitrary<String> text() {
        return Arbitraries.strings().withChars("abcXYZ019 ,;:\"'\\/=+-@\u00e4\u00df\u0416\u4e2d").ofMinLength(1).ofMaxLength(12)
            .map(text -> "x" + text + "x");
    }

    private static Arbitrary<Integer> upTo(int most) {
        return Arbitraries.integers().between(0, most);
    }

    private static Arbitrary<Integer> kelvins() {
        return Arbitraries.integers().between(223, 423);
    }

    private static Arbitrary<Reading> reading() {
        Arbitrary<Machine> machine = Combinators.combine(text(), text(), text(), text(), text(), Arbitraries.longs().between(1L << 26, 1L << 46),
            Arbitraries.longs().between(0, 1L << 50), Arbitraries.integers().between(15_000, 21_000).map(LocalDate::ofEpochDay)).as(Machine::new);
        Arbitrary<Drive> drive = Combinators.combine(text(), text(), text(), Arbitraries.longs().between(0, 1_000_000_000_000_000L), Arbitraries.of(Attachment.values()))
            .as(Drive::new);
        Arbitrary<Instant> at = Combinators.combine(Arbitraries.longs().between(1_893_456_000L, 4_102_444_800L), upTo(999_999_999)).as(Instant::ofEpochSecond);
        return Combinators.combine(at, machine, drive, health()).as((collectedAt, m, d, h) -> new Reading(ANYWHERE, collectedAt, m, d, h));
    }

    /** As far as the simulator's page holds them, counters below 2^63; temperatures and hours that can be, since others are not taken. */
    private static Arbitrary<Health> health() {
        Arbitrary<List<Integer>> small = Combinators.combine(List.of(upTo(255), kelvins(), upTo(100), Arbitraries.integers().between(1, 100), upTo(255), upTo(255))).as(list -> list);
        Arbitrary<List<BigInteger>> counters = Arbitraries.longs().between(0, Long.MAX_VALUE).map(BigInteger::valueOf).list().ofSize(10);
        Arbitrary<List<Long>> times = Arbitraries.longs().between(0, UNSIGNED_32_MAX).list().ofSize(6);
        return Combinators.combine(small, counters, times, kelvins().list().ofMaxSize(8)).as((s, c, t, sensors) -> new Health(s.get(0), s.get(1), s.get(2), s.get(3),
            s.get(4), s.get(5), c.get(0), c.get(1), c.get(2), c.get(3), c.get(4), c.get(5), c.get(6).mod(BigInteger.valueOf(100_000)), c.get(7), c.get(8), c.get(9), t.get(0), t.get(1), sensors, t.get(2),
            t.get(3), t.get(4), t.get(5)));
    }

    @Provide
    Arbitrary<List<Reading>> fleets() {
        return reading().list().ofMinSize(1).ofMaxSize(4);
    }

    @Property
    void everyFormGivesTheSameReadings(@ForAll("fleets") List<Reading> fleet) throws IOException {
        List<Reading> expected = fleet.stream().map(RoundTripPropertyTest::asReported).toList();
        List<ObjectNode> objects = fleet.stream().map(ReportText::object).toList();
        assertThat(read("a.jsonl", ReportText.lines(objects))).isEqualTo(expected);
        assertThat(read("b.json", ReportText.array(fleet))).isEqualTo(expected);
        assertThat(read("c.json", String.join("", objects.stream().map(ReportText::pretty).toList()))).isEqualTo(expected);
        assertThat(read("d.csv", ReportText.csv(fleet))).isEqualTo(expected);
        assertThat(read("e.ndjson", ReportText.lines(fleet.stream().map(ReportText::objectWithPage).toList()))).isEqualTo(expected);
    }

    /** The specification's "0h: not reported" taken out, and sensors of 0 at the end. */
    private static Reading asReported(Reading r) {
        Health h = r.health();
        List<Integer> sensors = new ArrayList<>(h.temperatureSensorsKelvin());
        while (!sensors.isEmpty() && sensors.get(sensors.size() - 1) == 0) {
            sensors.remove(sensors.size() - 1);
        }
        return new Reading(ANYWHERE, r.collectedAt(), r.machine(), r.drive(), new Health(h.criticalWarning(), h.compositeTemperatureKelvin() == 0 ? null
            : h.compositeTemperatureKelvin(), h.availableSparePercent(), h.availableSpareThresholdPercent(), h.percentageUsed(),
            h.enduranceGroupCriticalWarningSummary(), h.dataUnitsRead().signum() == 0 ? null : h.dataUnitsRead(), h.dataUnitsWritten().signum() == 0 ? null
            : h.dataUnitsWritten(), h.hostReadCommands(), h.hostWriteCommands(), h.controllerBusyMinutes(), h.powerCycles(), h.powerOnHours(), h.unsafeShutdowns(),
            h.mediaAndDataIntegrityErrors(), h.errorLogEntries(), h.warningTemperatureMinutes(), h.criticalTemperatureMinutes(), sensors,
            h.thermalManagement1Transitions(), h.thermalManagement2Transitions(), h.thermalManagement1Seconds(), h.thermalManagement2Seconds()));
    }

    @Property
    void aPackedReadingComesBackExactly(@ForAll("fleets") List<Reading> fleet) {
        fleet.forEach(reading -> assertThat(PackedReading.unpack(PackedReading.pack(reading))).isEqualTo(reading));
    }

    private static List<Reading> read(String name, String content) throws IOException {
        Path file = Files.writeString(folder.resolve(name), content);
        List<Reading> readings = new ArrayList<>();
        List<Problem> problems = new ArrayList<>();
        try (ReportReader reader = WholeFile.reader(new ReportFile(file.toString(), name))) {
            for (Iterator<ReportReader.Item> items = reader; items.hasNext();) {
                ReportReader.Item item = items.next();
                item.outcome().values().forEach(r -> readings.add(new Reading(ANYWHERE, r.collectedAt(), r.machine(), r.drive(), r.health())));
                problems.addAll(item.outcome().problems());
            }
        }
        assertThat(problems).isEmpty();
        return readings;
    }
}
