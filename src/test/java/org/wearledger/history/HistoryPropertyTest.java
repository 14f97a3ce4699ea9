package org.wearledger.history;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigInteger;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.TreeMap;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.wearledger.model.DriveId;
import org.wearledger.model.Effect;
import org.wearledger.model.HistoryPoint;
import org.wearledger.model.Problem;
import org.wearledger.model.Reading;
import org.wearledger.model.SourcePlace;
import org.wearledger.report.ProblemWords;

/** Small fleets in which everything that can go wrong goes wrong often: few moments, machines and serials, counters up and down. */
class HistoryPropertyTest {
    private static final Limits LIMITS = new Limits(Instant.parse("2025-01-02T00:00:00Z"), Instant.parse("2024-12-31T23:59:59Z"));
    private static final List<String> MOMENTS = List.of("2024-01-01T08:00:00Z", "2024-01-01T20:00:00Z", "2024-02-01T08:00:00Z", "2024-04-01T08:00:00Z",
        "2024-07-01T08:00:00Z", "2024-07-10T08:00:00Z", "2024-10-01T08:00:00Z", "2025-01-01T08:00:00Z", "2025-06-01T08:00:00Z");

    private static Arbitrary<Long> sometimes(long... values) {
        return Arbitraries.integers().between(-1, values.length - 1).map(i -> i < 0 ? null : (Long) values[i]);
    }

    private static Arbitrary<Sample> sample() {
        Arbitrary<Sample> placed = Combinators.combine(Arbitraries.of(MOMENTS), Arbitraries.of("PC-1", "pc-1 ", "PC-2"),
            Arbitraries.of("KX-0001", "kx-0001", "KX-0002", "0123456789"), sometimes(0, 256_060_514_304L, 512_110_190_592L))
            .as((at, machine, serial, capacity) -> Sample.at(at).machine(machine).serial(serial).capacity(capacity));
        return Combinators.combine(placed, sometimes(0, 1_000, 1_000_000, 2_000_000, 900_000_000), sometimes(0, 10, 1_000, 5_000), sometimes(1, 2, 300),
            sometimes(0, 10_000_000, 100_000_000), sometimes(0, 50, 255)).as((s, units, hours, cycles, commands, used) -> {
                Sample with = units == null ? s : s.units(units);
                with = hours == null ? with : with.hours(hours);
                with = cycles == null ? with : with.cycles(cycles);
                with = commands == null ? with : with.writeCommands(commands);
                return used == null ? with : with.used(used.intValue());
            });
    }

    @Provide
    Arbitrary<List<Reading>> fleets() {
        return sample().list().ofMaxSize(14).map(samples -> {
            List<Reading> readings = new ArrayList<>();
            for (Sample sample : samples) {
                Reading r = sample.reading();
                readings.add(new Reading(SourcePlace.record("r.json", readings.size() + 1), r.collectedAt(), r.machine(), r.drive(), r.health()));
            }
            return readings;
        });
    }

    private static Map<DriveId, List<Reading>> byDrive(Collection<Reading> readings) {
        Map<DriveId, List<Reading>> byDrive = new TreeMap<>();
        readings.forEach(r -> byDrive.computeIfAbsent(r.drive().id(), id -> new ArrayList<>()).add(r));
        return byDrive;
    }

    private static Map<DriveId, HistoryOutcome> histories(Collection<Reading> readings) {
        Map<DriveId, HistoryOutcome> outcomes = new TreeMap<>();
        byDrive(readings).forEach((id, own) -> outcomes.put(id, DriveHistories.build(id, own, LIMITS)));
        return outcomes;
    }

    @Property
    void everyReadingIsKeptOrSetAsideByOneRule(@ForAll("fleets") List<Reading> fleet) {
        Map<DriveId, List<Reading>> byDrive = byDrive(fleet);
        histories(fleet).forEach((id, outcome) -> {
            List<Problem> setAside = outcome.problems().stream().filter(p -> p.kind().effect() == Effect.READING_SET_ASIDE).toList();
            List<SourcePlace> places = new ArrayList<>(setAside.stream().map(Problem::source).toList());
            if (outcome.history() != null) {
                outcome.history().points().forEach(point -> places.add(point.reading().source()));
            }
            assertThat(places).containsExactlyInAnyOrderElementsOf(byDrive.get(id).stream().map(Reading::source).toList());
            assertThat(outcome.kept() + outcome.setAside()).isEqualTo(byDrive.get(id).size());
        });
    }

    @Property
    void theOrderOfTheReadingsAndHowTheyAreParcelledChangesNothing(@ForAll("fleets") List<Reading> fleet, @ForAll Random random) {
        List<Reading> shuffled = new ArrayList<>(fleet);
        Collections.shuffle(shuffled, random);
        assertThat(histories(shuffled)).isEqualTo(histories(fleet));
        int cut = fleet.isEmpty() ? 0 : random.nextInt(fleet.size());
        List<Stint> whole = stints(fleet);
        List<Stint> parts = new ArrayList<>(whole.subList(Math.min(cut, whole.size()), whole.size()));
        parts.addAll(whole.subList(0, Math.min(cut, whole.size())));
        assertThat(placements(parts)).isEqualTo(placements(whole));
    }

    private static List<Stint> stints(List<Reading> fleet) {
        return histories(fleet).values().stream().map(HistoryOutcome::history).filter(Objects::nonNull).flatMap(h -> Placements.stintsOf(h).stream()).toList();
    }

    /** All that placements say: problems, and for each drive whether it was its machine's first and where it is active. */
    private static List<String> placements(List<Stint> stints) {
        Placements placements = Placements.of(stints, Map.of(), Map.of());
        List<String> said = new ArrayList<>(placements.problems().stream().map(problem -> ProblemWords.of(problem).sentence()).toList());
        new HashSet<>(stints).stream().sorted(Comparator.comparing(Stint::drive).thenComparing(Stint::machineId).thenComparing(Stint::first)).forEach(stint ->
            said.add(stint.drive() + " " + stint.machineId() + " " + placements.isActive(stint.drive(), stint.machineId()) + " " + placements.firstDriveOf(stint.drive())));
        return said;
    }

    @Property
    void timeRisesAndTotalsNeverFall(@ForAll("fleets") List<Reading> fleet) {
        histories(fleet).values().stream().map(HistoryOutcome::history).filter(Objects::nonNull).forEach(history -> {
            Instant at = Instant.MIN;
            BigInteger total = BigInteger.ZERO;
            int epoch = 0;
            for (HistoryPoint point : history.points()) {
                assertThat(point.reading().collectedAt()).isAfter(at);
                assertThat(point.epoch()).isBetween(epoch, epoch + 1);
                assertThat(LIMITS.isInFuture(point.reading().collectedAt()) || LIMITS.isAfterAsOf(point.reading().collectedAt())).isFalse();
                at = point.reading().collectedAt();
                epoch = point.epoch();
                if (point.totalBytesWritten() != null) {
                    assertThat(point.totalBytesWritten()).isGreaterThanOrEqualTo(total);
                    total = point.totalBytesWritten();
                }
            }
        });
    }
}
