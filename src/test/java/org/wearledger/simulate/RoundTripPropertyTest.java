package org.wearledger.simulate;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
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
import org.wearledger.model.HealthField;
import org.wearledger.model.Machine;
import org.wearledger.model.Problem;
import org.wearledger.model.Reading;
import org.wearledger.model.SourcePlace;

/** Complete readings written in every form and read back. */
class RoundTripPropertyTest {
    private static final SourcePlace ANYWHERE = SourcePlace.wholeFile("-");

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
        List<Arbitrary<Long>> values = HealthField.ALL.stream().map(RoundTripPropertyTest::values).toList();
        return Combinators.combine(Combinators.combine(values).as(list -> list), kelvins().list().ofMaxSize(8)).as((each, sensors) -> {
            Health.Builder health = Health.builder().sensors(sensors.stream().mapToInt(kelvin -> kelvin).toArray());
            HealthField.ALL.stream().filter(field -> !field.isList()).forEach(field -> health.set(field, each.get(field.ordinal())));
            return health.build();
        });
    }

    private static Arbitrary<Long> values(HealthField field) {
        return switch (field) {
            case COMPOSITE_TEMPERATURE, TEMPERATURE_SENSORS -> kelvins().map(Integer::longValue);
            case AVAILABLE_SPARE_THRESHOLD -> Arbitraries.longs().between(1, 100);
            case POWER_ON_HOURS -> Arbitraries.longs().between(0, 99_999);
            default -> Arbitraries.longs().between(0, field.largest());
        };
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
        Health.Builder health = r.health().toBuilder();
        HealthField.ALL.stream().filter(field -> field.isZeroNotReported() && health.value(field) == 0).forEach(health::clear);
        int sensors = r.health().sensors();
        while (sensors > 0 && r.health().sensor(sensors - 1) == 0) {
            sensors--;
        }
        health.sensors(Arrays.copyOf(health.sensors(), sensors));
        return new Reading(ANYWHERE, r.collectedAt(), r.machine(), r.drive(), health.build());
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
