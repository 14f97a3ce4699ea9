package org.wearledger.assess;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.wearledger.model.ImpliedRating;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.ComparedGroup;
import org.wearledger.model.ModelFactor;
import org.wearledger.model.Separation;

/** Chains of shops of which the truth is known ({@link Chain}). */
class MachineModelsTest {
    /** What came of one chain. */
    private record Outcome(int foundFirst, int falseOnes, int coveredByHour, int coveredByDay, Set<String> contradicted, int enduranceCovered) {
        static Outcome of(long seed) {
            Chain chain = new Chain(seed);
            List<ComparedGroup> models = MachineModels.of(chain.machines).machineModels();
            List<ComparedGroup> ranked = models.stream().sorted(Comparator.comparingDouble((ComparedGroup model) -> -model.perHour().adjusted())).toList();
            Map<String, ComparedGroup> byName = models.stream().collect(Collectors.toMap(ComparedGroup::name, Function.identity()));
            Map<String, ImpliedRating> implied = ImpliedRatings.of(chain.machines.stream().flatMap(machine -> machine.activeDrives().stream())
                .collect(Collectors.groupingBy(drive -> drive.id().model())));
            return new Outcome((int) ranked.subList(0, Chain.STANDING_OUT).stream().filter(model -> chain.trueFactors.get(model.name()) > 1).count(),
                (int) IntStream.range(Chain.STANDING_OUT, Chain.ONLY_BY_SHOP).mapToObj(Chain::name).map(name -> byName.get(name).perHour().adjusted())
                    .filter(factor -> factor < 0.75 || factor > 1.33).count(),
                covered(models, chain, ComparedGroup::perHour), covered(models, chain, ComparedGroup::perDay),
                implied.entrySet().stream().filter(each -> each.getValue().contradictsRating()).map(Map.Entry::getKey).collect(Collectors.toCollection(TreeSet::new)),
                (int) IntStream.range(0, Chain.DRIVE_MODELS).filter(model -> holds(implied.get(Chain.driveName(model).toUpperCase(Locale.ROOT)), Chain.trueEndurance(model))).count());
        }

        private static int covered(List<ComparedGroup> models, Chain chain, Function<ComparedGroup, ModelFactor> measure) {
            return (int) models.stream().filter(model -> measure.apply(model).interval95().low() <= chain.trueFactors.get(model.name())
                && chain.trueFactors.get(model.name()) <= measure.apply(model).interval95().high()).count();
        }

        private static boolean holds(ImpliedRating implied, double truth) {
            return implied.interval95().low() <= truth && truth <= implied.interval95().high();
        }

        String line(long seed) {
            return String.format(Locale.ROOT, "seed %2d: %2d of 11 first; %d of 6 false ones outside 0.75 to 1.33; intervals hold %d and %d of 60 (hour, day), %d of 25 (endurance); contradicted %s",
                seed, foundFirst, falseOnes, coveredByHour, coveredByDay, enduranceCovered, contradicted);
        }
    }

    private static final Set<String> CONTRADICTED = Set.of("DRIVE A3", "DRIVE E0", "DRIVE E1", "DRIVE E2");

    @Test
    void elevenModelsOfSixtyAreFoundAndSixThatSeemFastAreNot() {
        Outcome outcome = Outcome.of(1);
        assertThat(outcome.foundFirst).isEqualTo(11);
        assertThat(outcome.falseOnes).isZero();
        assertThat(outcome.coveredByHour).isBetween(52, 60);
        assertThat(outcome.contradicted).isEqualTo(CONTRADICTED);
    }

    /** Seeds 101 to 112 served while this was made; these did not. */
    @Test
    @Tag("thorough")
    void twentyChains() {
        List<Outcome> outcomes = IntStream.rangeClosed(1, 20).mapToObj(Outcome::of).toList();
        IntStream.range(0, 20).forEach(i -> System.out.println(outcomes.get(i).line(i + 1)));
        double byHour = outcomes.stream().mapToInt(Outcome::coveredByHour).sum() / (20.0 * Chain.MODELS);
        double byDay = outcomes.stream().mapToInt(Outcome::coveredByDay).sum() / (20.0 * Chain.MODELS);
        System.out.printf(Locale.ROOT, "95 %% intervals hold the truth: %.1f %% by hour, %.1f %% by day%n", 100 * byHour, 100 * byDay);
        assertThat(outcomes).allMatch(outcome -> outcome.foundFirst == 11 && outcome.falseOnes == 0 && outcome.contradicted.equals(CONTRADICTED));
        assertThat(byHour).isBetween(0.90, 0.98);
        assertThat(byDay).isBetween(0.90, 0.98);
    }

    @Test
    void saysWhatExplainsAModel() {
        Map<String, Separation> found = MachineModels.of(new Chain(1).machines).machineModels().stream().collect(Collectors.toMap(ComparedGroup::name, model -> model.perHour().separation()));
        assertThat(IntStream.range(0, Chain.TRIPLE).mapToObj(Chain::name)).allMatch(name -> found.get(name) == Separation.MORE_THAN_TYPICAL);
        assertThat(IntStream.range(Chain.STANDING_OUT, Chain.ONLY_BY_MEMORY).mapToObj(Chain::name)).allMatch(name -> found.get(name) == Separation.EXPLAINED_BY_MEMORY);
        assertThat(IntStream.range(Chain.ONLY_BY_MEMORY, Chain.ONLY_BY_SHOP).mapToObj(Chain::name)).allMatch(name -> found.get(name) == Separation.EXPLAINED_BY_SITE);
    }

    /** Shops 0 and 1 write 2.5 times as much; the others differ by a deviation of 0.15 of the logarithm. One interval of 95 % in 12 may miss; 9 hold in all but one chain of a thousand (R's {@code qbinom(1e-3, 12, .95)}). */
    @Test
    void shopsAreToldApartFromWhatTheirMachinesAre() {
        Chain chain = new Chain(1);
        Map<String, ModelFactor> found = MachineModels.of(chain.machines).sites().stream().collect(Collectors.toMap(ComparedGroup::name, ComparedGroup::perHour));
        double typical = Math.exp(IntStream.range(2, Chain.SHOPS).mapToDouble(shop -> Math.log(chain.shopFactors[shop])).average().orElseThrow());
        assertThat(found.get("Shop 0").separation()).isEqualTo(Separation.MORE_THAN_TYPICAL);
        long held = IntStream.range(0, Chain.SHOPS).filter(shop -> found.get("Shop " + shop).interval95().low() <= chain.shopFactors[shop] / typical
            && chain.shopFactors[shop] / typical <= found.get("Shop " + shop).interval95().high()).count();
        assertThat(held).isGreaterThanOrEqualTo(9);
    }

    @Test
    void theOrderOfTheMachinesChangesNoDigit() {
        List<MachineAssessment> machines = new Chain(1).machines.subList(0, 1_000);
        List<MachineAssessment> shuffled = new ArrayList<>(machines);
        Collections.shuffle(shuffled, new Random(7));
        assertThat(MachineModels.of(shuffled)).isEqualTo(MachineModels.of(machines));
    }

    @Test
    void fewMachinesOrOneModelAreNotCompared() {
        List<MachineAssessment> machines = new Chain(1).machines;
        assertThat(MachineModels.of(machines.subList(0, 20)).machineModels()).isNotEmpty().allMatch(model -> model.best().separation() == Separation.NOT_COMPARED);
        List<MachineAssessment> oneModel = machines.stream().filter(machine -> machine.machine().model().equals(Chain.name(30))).toList();
        assertThat(MachineModels.of(oneModel).machineModels()).singleElement().matches(model -> model.best() == ModelFactor.NOT_COMPARED && model.drives() > 30);
        assertThat(MachineModels.of(List.of()).machineModels()).isEmpty();
    }

    /** Each of three models has a memory size of its own: which of the two makes the difference nobody can tell, and the interval says so within reason. */
    @Test
    void whatMemoryAndModelShareIsNotGivenToTheModel() {
        List<MachineAssessment> machines = new Chain(1).machines.stream().filter(machine -> List.of(Chain.name(0) + 8, Chain.name(30) + 16, Chain.name(31) + 32)
            .contains(machine.machine().model() + (machine.machine().memoryBytes() >> 30))).toList();
        assertThat(MachineModels.of(machines).machineModels()).extracting(ComparedGroup::perHour).hasSize(3).allSatisfy(factor -> {
            assertThat(factor.separation()).isIn(Separation.CANNOT_BE_SEPARATED, Separation.EXPLAINED_BY_MEMORY);
            assertThat(factor.interval95().low()).isBetween(0.01, 0.5);
            assertThat(factor.interval95().high()).isBetween(2.0, 100.0);
        });
    }

    /** Two models alike but for their writes: no drawing towards each other can be learned from two, and the larger one is what is typical. */
    @Test
    void twoModelsAreSetAgainstTheLarger() {
        List<MachineAssessment> machines = new Chain(1).machines.stream()
            .filter(machine -> machine.machine().model().equals(Chain.name(0)) || machine.machine().model().equals(Chain.name(30)) || machine.machine().model().equals(Chain.name(31))).toList();
        Map<String, ModelFactor> found = MachineModels.of(machines).machineModels().stream().collect(Collectors.toMap(ComparedGroup::name, ComparedGroup::perHour));
        assertThat(found.get(Chain.name(0)).interval95().low()).isBetween(1.8, 3.0);
        assertThat(found.get(Chain.name(0)).interval95().high()).isBetween(3.0, 5.0);
        assertThat(found.get(Chain.name(31)).separation()).isEqualTo(Separation.CANNOT_BE_SEPARATED);
    }
}
