package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.wearledger.simulate.FleetSetting;
import org.wearledger.simulate.FleetSettings;
import picocli.CommandLine;

/** Whatever is typed is taken, or refused in a sentence. */
class OptionsPropertyTest {
    @Provide
    Arbitrary<List<String>> arguments() {
        List<String> options = Main.commandLine().getSubcommands().values().stream().flatMap(command -> command.getCommandSpec().optionsMap().keySet().stream())
            .distinct().sorted().toList();
        Arbitrary<String> values = Arbitraries.of("0", "1", "-1", "13", "0.5", "1.5", "NaN", "Infinity", "1e400", "1e-400", "2025-01-06", "2025-02-31", "+999999999-01-01",
            "pooled", "straight line", "straight-line", "past-rating", "", " ", "=", "--", "@nofile", "99999999999999999999", "\u0661", "reports");
        Arbitrary<String> joined = net.jqwik.api.Combinators.combine(Arbitraries.of(options), values).as((option, value) -> option + "=" + value);
        return Arbitraries.oneOf(List.of(Arbitraries.of(options), values, joined)).list().ofMaxSize(5).flatMap(rest ->
            Arbitraries.of("sweep", "check", "backtest", "explain", "simulate").map(command -> {
                List<String> all = new java.util.ArrayList<>(List.of(command));
                all.addAll(rest);
                return all;
            }));
    }

    @Property
    void argumentsAreParsedOrRefusedInASentence(@ForAll("arguments") List<String> arguments) {
        try {
            Main.commandLine().parseArgs(arguments.toArray(String[]::new));
        } catch (CommandLine.ParameterException e) {
            assertThat(e.getMessage()).isNotBlank();
        }
    }

    @Property
    void aDateIsOneOfTheYearsThatCanBeOrIsRefused(@ForAll String text, @ForAll("dates") String date) {
        for (String each : List.of(text, date)) {
            try {
                assertThat(new LabelConverters.ForDate().convert(each)).isBetween(LocalDate.of(2011, 1, 1), LocalDate.of(2199, 12, 31));
            } catch (CommandLine.TypeConversionException e) {
                assertThat(e.getMessage()).startsWith("expected a date ");
            }
        }
    }

    @Provide
    Arbitrary<String> dates() {
        return net.jqwik.api.Combinators.combine(Arbitraries.integers().between(1990, 2220), Arbitraries.integers().between(0, 13), Arbitraries.integers().between(0, 32))
            .as((year, month, day) -> String.format(java.util.Locale.ROOT, "%04d-%02d-%02d", year, month, day));
    }

    @Property
    void aSettingOfAFleetLiesInItsRangeOrIsRefused(@ForAll FleetSetting setting, @ForAll double value, @ForAll int drives, @ForAll int quarters) {
        try {
            assertThat(FleetSettings.withDefaults(10, 4, 1).with(setting, value).value(setting)).isEqualTo(value);
            FleetSettings.withDefaults(drives, quarters, 1);
        } catch (IllegalArgumentException e) {
            assertThat(e.getMessage()).containsPattern("^[a-z-]+ takes a .* not ");
        }
    }
}
