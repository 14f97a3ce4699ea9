package org.wearledger.assess;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.wearledger.model.AgainstRest;
import org.wearledger.model.Attachment;
import org.wearledger.model.Drive;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Endurance;
import org.wearledger.model.Health;
import org.wearledger.model.Interval;
import org.wearledger.model.Machine;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.MemoryBand;
import org.wearledger.model.MemoryContrast;
import org.wearledger.model.ModelSummary;
import org.wearledger.model.Projection;
import org.wearledger.model.Reading;
import org.wearledger.model.Separation;
import org.wearledger.model.SourcePlace;
import org.wearledger.model.Standing;

class FleetComparisonTest {
    private static final Instant COLLECTED_AT = Instant.parse("2025-04-01T00:00:00Z");
    /** Rated terabytes at which 1 GB a day is 0.1 % a year: makes the expected words easy to work out. */
    private static final double RATED_TERABYTES = 365.25;

    @Test
    void groupsDrivesByFoldedModelAndCountsStandings() {
        List<ModelSummary> models = FleetComparison.models(List.of(
            machine("B", 8, drive("osprey  O1", "2", 30.0, Standing.WATCH)),
            machine("A", 8, drive("Osprey O1", "1", 10.0, Standing.WITHIN_RATING),
                drive("Kestrel K2", "9", null, Standing.WITHIN_RATING)),
            machine("C", 8, drive("OSPREY O1", "3", 20.0, Standing.WATCH))), Map.of());
        assertThat(models).extracting(ModelSummary::driveModel).containsExactly("Kestrel K2", "Osprey O1");
        ModelSummary osprey = models.get(1);
        assertThat(osprey.drives()).isEqualTo(3);
        assertThat(osprey.standings()).isEqualTo(Map.of(Standing.WATCH, 2, Standing.WITHIN_RATING, 1));
        assertThat(osprey.gigabytesPerDay().median()).isEqualTo(20);
        assertThat(osprey.consumedPercentPerYear().upperQuartile()).isEqualTo(2.5, within(1e-12));
        assertThat(osprey.consumedPercent().size()).isEqualTo(3);
        assertThat(osprey.againstRest()).isEqualTo(AgainstRest.tooFew(3, 0));
        assertThat(models.get(0).gigabytesPerDay().size()).isZero();
        assertThat(models.get(0).againstRest()).isEqualTo(AgainstRest.tooFew(0, 3));
    }

    @Test
    void countsAssumedRatings() {
        DriveAssessment assumed = drive("Osprey O1", "1", 10.0, Standing.WATCH, new Endurance(BigDecimal.TEN, true, null, "rule"));
        DriveAssessment none = drive("Osprey O1", "2", 10.0, Standing.NO_VERDICT, null);
        ModelSummary summary = FleetComparison.models(List.of(machine("A", 8, assumed, none)), Map.of()).get(0);
        assertThat(summary.ratingsAssumed()).isEqualTo(1);
        assertThat(summary.consumedPercentPerYear().size()).isEqualTo(1);
    }

    @Test
    void saysFasterAndSlowerWithNumbers() {
        List<ModelSummary> models = FleetComparison.models(twoModels(20, 31), Map.of());
        // Every Osprey writes exactly 31 GB/day more than its Kestrel fellow: 3.1 % a year.
        AgainstRest kestrel = models.get(0).againstRest();
        AgainstRest osprey = models.get(1).againstRest();
        assertThat(kestrel.separation()).isEqualTo(Separation.LESS_THAN_TYPICAL);
        assertThat(osprey.separation()).isEqualTo(Separation.MORE_THAN_TYPICAL);
        assertThat(kestrel.shiftPercentPerYear()).isCloseTo(-3.1, within(0.05));
        assertThat(osprey.shiftPercentPerYear()).isCloseTo(3.1, within(0.05));
        assertThat(osprey.interval95().low()).isBetween(2.0, 3.1);
        assertThat(osprey.interval95().high()).isBetween(3.1, 4.0);
        assertThat(List.of(osprey.own(), osprey.others())).containsExactly(20, 20);
    }

    @Test
    void saysWhenModelsCannotBeSeparated() {
        AgainstRest equal = FleetComparison.models(twoModels(12, 0), Map.of()).get(1).againstRest();
        assertThat(equal.separation()).isEqualTo(Separation.CANNOT_BE_SEPARATED);
        assertThat(equal.shiftPercentPerYear()).isCloseTo(0, within(0.05));
        assertThat(equal.interval95().low()).isNegative();
        assertThat(equal.interval95().high()).isPositive();
    }

    @Test
    void asksMoreOfADifferenceTheMoreModelsAreCompared() {
        // Independent exact p values of the third model: 0.0244 with 2.5 GB/day on top, which three comparisons make
        // 0.0732, and 0.0038 with 3.5 GB/day on top, which they make 0.0114.
        assertThat(FleetComparison.models(threeModels(2.5), Map.of()).get(2).againstRest().separation()).isEqualTo(Separation.CANNOT_BE_SEPARATED);
        assertThat(FleetComparison.models(threeModels(3.5), Map.of()).get(2).againstRest().separation()).isEqualTo(Separation.MORE_THAN_TYPICAL);
    }

    @Test
    void needsTenOnBothSides() {
        assertThat(FleetComparison.models(twoModels(9, 31), Map.of()).get(0).againstRest())
            .isEqualTo(AgainstRest.tooFew(9, 9));
        assertThat(FleetComparison.models(twoModels(10, 31), Map.of()).get(0).againstRest().separation()).isEqualTo(Separation.LESS_THAN_TYPICAL);
        List<MachineAssessment> oneModel = new ArrayList<>();
        for (int i = 0; i < 10; i++) {
            oneModel.add(machine("M" + i, 8, drive("Kestrel K2", "k" + i, 10.0 + i, Standing.WATCH)));
        }
        assertThat(FleetComparison.models(oneModel, Map.of()).get(0).againstRest())
            .isEqualTo(AgainstRest.tooFew(10, 0));
    }

    @Test
    void bandsMachinesByRoundedMemory() {
        MachineAssessment twoDrives = machine("A", 8, drive("Kestrel K2", "1", 10.0, Standing.WATCH),
            drive("Kestrel K2", "2", 5.0, Standing.WATCH));
        MachineAssessment nearlyEight = machineWithMemory("B", (8L << 30) - 200_000_000, 3L << 29,
            drive("Kestrel K2", "3", 20.0, Standing.WATCH));
        MachineAssessment unknown = machineWithMemory("C", null, null, drive("Kestrel K2", "4", 1.0, Standing.WATCH));
        List<MemoryBand> bands = FleetComparison.memoryBands(List.of(nearlyEight, unknown, twoDrives));
        assertThat(bands).extracting(MemoryBand::memoryGibibytes).containsExactly(0, 8);
        assertThat(bands.get(1).machines()).isEqualTo(2);
        assertThat(bands.get(1).gigabytesPerDay().lowerQuartile()).isEqualTo(16.25);
        assertThat(bands.get(1).gigabytesPerDay().upperQuartile()).isEqualTo(18.75);
        assertThat(bands.get(1).swapUsedGibibytes().size()).isEqualTo(1);
        assertThat(bands.get(1).swapUsedGibibytes().median()).isEqualTo(1.5);
        assertThat(bands.get(0).swapUsedGibibytes().median()).isNaN();
    }

    @Test
    void aDriveWithoutRateLeavesItsMachineWithoutRate() {
        List<MemoryBand> bands = FleetComparison.memoryBands(List.of(machine("A", 8,
            drive("Kestrel K2", "1", 10.0, Standing.WATCH), drive("Kestrel K2", "2", null, Standing.WATCH)),
            machine("B", 8)));
        assertThat(bands.get(0).machines()).isEqualTo(2);
        assertThat(bands.get(0).gigabytesPerDay().size()).isZero();
    }

    @Test
    void contrastsEachBandWithTheNextLarger() {
        List<MachineAssessment> machines = new ArrayList<>();
        addMachines(machines, 8, 25, 30.0);
        addMachines(machines, 16, 30, 10.0);
        addMachines(machines, 32, 4, 10.0);
        machines.add(machineWithMemory("unknown", null, null, drive("Kestrel K2", "u", 1.0, Standing.WATCH)));
        List<MemoryContrast> contrasts = FleetComparison.memoryContrasts(machines);
        assertThat(contrasts).hasSize(2);
        MemoryContrast first = contrasts.get(0);
        // Rates rise in steps of 0.1 from 30 over 25 machines and from 10 over 30: midpoints 31.2 and 11.45.
        assertThat(first.shiftGigabytesPerDay()).isEqualTo(19.75, within(0.06));
        assertThat(first.twoSidedP()).isLessThan(1e-6);
        assertThat(first.separation()).isEqualTo(Separation.MORE_THAN_TYPICAL);
        assertThat(first.shiftInterval95().low()).isBetween(19.0, 19.8);
        MemoryContrast second = contrasts.get(1);
        assertThat(second.shiftGigabytesPerDay()).isNaN();
        assertThat(second.separation()).as("4 machines, and 5 are needed").isEqualTo(Separation.NOT_COMPARED);
    }

    @Test
    void saysLessAndCannotBeToldApart() {
        List<MachineAssessment> machines = new ArrayList<>();
        addMachines(machines, 8, 8, 10.0);
        addMachines(machines, 16, 8, 30.0);
        addMachines(machines, 32, 8, 30.0);
        List<MemoryContrast> contrasts = FleetComparison.memoryContrasts(machines);
        assertThat(contrasts.get(0).separation()).isEqualTo(Separation.LESS_THAN_TYPICAL);
        assertThat(contrasts.get(0).shiftGigabytesPerDay()).isCloseTo(-20, within(0.05));
        assertThat(contrasts.get(0).shiftInterval95().high()).isNegative();
        assertThat(contrasts.get(1).separation()).isEqualTo(Separation.CANNOT_BE_SEPARATED);
    }

    @Test
    void nothingGivesNothing() {
        assertThat(FleetComparison.models(List.of(), Map.of())).isEmpty();
        assertThat(FleetComparison.memoryBands(List.of())).isEmpty();
        assertThat(FleetComparison.memoryContrasts(List.of())).isEmpty();
    }

    @Test
    void doesNotDependOnTheOrderOfTheMachines() {
        List<MachineAssessment> machines = new ArrayList<>(twoModels(15, 7));
        addMachines(machines, 16, 9, 12.5);
        List<ModelSummary> models = FleetComparison.models(machines, Map.of());
        List<MemoryBand> bands = FleetComparison.memoryBands(machines);
        List<MemoryContrast> contrasts = FleetComparison.memoryContrasts(machines);
        for (int seed = 0; seed < 5; seed++) {
            Collections.shuffle(machines, new Random(seed));
            assertThat(FleetComparison.models(machines, Map.of())).isEqualTo(models);
            assertThat(FleetComparison.memoryBands(machines)).isEqualTo(bands);
            assertThat(FleetComparison.memoryContrasts(machines)).isEqualTo(contrasts);
        }
    }

    private static List<MachineAssessment> twoModels(int drivesOfEach, double moreGigabytesPerDay) {
        List<MachineAssessment> machines = new ArrayList<>();
        for (int i = 0; i < drivesOfEach; i++) {
            machines.add(machine("K" + i, 8, drive("Kestrel K2", "k" + i, 10.0 + i, Standing.WATCH)));
            machines.add(machine("O" + i, 8,
                drive("Osprey O1", "o" + i, 10.0 + i + moreGigabytesPerDay, Standing.WATCH)));
        }
        return machines;
    }

    private static List<MachineAssessment> threeModels(double moreGigabytesPerDay) {
        List<MachineAssessment> machines = new ArrayList<>();
        for (int i = 0; i < 10; i++) {
            machines.add(machine("A" + i, 8, drive("Avocet A1", "a" + i, 10.0 + i, Standing.WATCH)));
            machines.add(machine("B" + i, 8, drive("Bittern B1", "b" + i, 10.3 + i, Standing.WATCH)));
            machines.add(machine("C" + i, 8,
                drive("Curlew C1", "c" + i, 10.6 + i + moreGigabytesPerDay, Standing.WATCH)));
        }
        return machines;
    }

    private static void addMachines(List<MachineAssessment> machines, int gibibytes, int count, double fromRate) {
        for (int i = 0; i < count; i++) {
            String name = gibibytes + "-" + i;
            machines.add(machine(name, gibibytes, drive("Kestrel K2", name, fromRate + 0.1 * i, Standing.WATCH)));
        }
    }

    private static MachineAssessment machine(String id, long gibibytes, DriveAssessment... drives) {
        return machineWithMemory(id, gibibytes << 30, null, drives);
    }

    private static MachineAssessment machineWithMemory(String id, Long memoryBytes, Long swapUsedBytes,
                                                       DriveAssessment... drives) {
        return new MachineAssessment(new Machine(id, null, null, null, null, memoryBytes, swapUsedBytes, null),
            Attachment.UNKNOWN, List.of(drives), Standing.WATCH, "", COLLECTED_AT, true, null, null, false);
    }

    private static DriveAssessment drive(String model, String serial, Double gigabytesPerDay, Standing standing) {
        return drive(model, serial, gigabytesPerDay, standing,
            new Endurance(BigDecimal.valueOf(RATED_TERABYTES), false, null, "ratings.csv"));
    }

    private static DriveAssessment drive(String model, String serial, Double gigabytesPerDay, Standing standing,
                                         Endurance endurance) {
        Drive drive = new Drive(serial, model, null, null, Attachment.UNKNOWN);
        Health nothingReported = Health.NOTHING;
        Reading latest = new Reading(SourcePlace.record("r.json", 1), COLLECTED_AT,
            new Machine("any", null, null, null, null, null, null, null), drive, nothingReported);
        return new DriveAssessment(drive.id(), latest,
            new DriveAssessment.Seen(null, COLLECTED_AT, 2, 1),
            new DriveAssessment.Wear(BigInteger.ONE, endurance, 12.5, null, new Interval(0, 1)),
            new DriveAssessment.Pace(gigabytesPerDay, null, null),
            new DriveAssessment.Outlook(new Projection.None("test"), null, null), standing, "");
    }

    /** 10 and 30 GB a day of 365.25 TB are 1 and 3 % a year; one group, since two drives each say little. */
    @Test
    void eachModelHasItsWearAYear() {
        List<ModelSummary> models = FleetComparison.models(List.of(machine("A", 8, drive("Kestrel K2", "1", 10.0, Standing.WATCH),
            drive("Kestrel K2", "2", 10.0, Standing.WATCH)), machine("B", 8, drive("Osprey O1", "3", null, Standing.WATCH))), Map.of());
        assertThat(models.get(0).typicalPercentPerYear()).isCloseTo(1, within(1e-9));
        assertThat(models.get(1).typicalPercentPerYear()).as("no rate known").isNaN();
    }

    @Test
    void fiveMachinesOnEachSideAreEnoughToSpeak() {
        List<MachineAssessment> machines = new ArrayList<>();
        addMachines(machines, 8, 5, 10.0);
        addMachines(machines, 16, 5, 30.0);
        assertThat(FleetComparison.memoryContrasts(machines).get(0).separation()).isEqualTo(Separation.LESS_THAN_TYPICAL);
    }
}
