package org.wearledger.cli;

import java.util.EnumMap;
import java.util.Map;
import org.wearledger.simulate.FleetSetting;
import org.wearledger.simulate.FleetSettings;
import picocli.CommandLine.Model.ArgGroupSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParseResult;

/** The options of a fleet with known truth, one for each {@link FleetSetting}; none of them without {@code --drives}. */
final class FleetOptions {
    private static final String DRIVES = "--drives";

    private FleetOptions() {
    }

    static ArgGroupSpec group() {
        ArgGroupSpec.Builder group = ArgGroupSpec.builder().exclusive(false).heading("%nA fleet with known truth, instead of the office:%n")
            .addArg(OptionSpec.builder(DRIVES).required(true).type(Integer.class).paramLabel("N").description("How many machines with one drive each.").build());
        for (FleetSetting setting : FleetSetting.values()) {
            String meaning = setting.meaning();
            group.addArg(OptionSpec.builder("--" + setting.option()).type(Double.class).paramLabel(setting.label())
                .description(Character.toUpperCase(meaning.charAt(0)) + meaning.substring(1) + " (default: " + String.valueOf(setting.defaultValue()).replaceFirst("\\.0$", "") + ").").build());
        }
        return group.build();
    }

    static boolean areGiven(ParseResult given) {
        return given.hasMatchedOption(DRIVES);
    }

    /** @throws IllegalArgumentException with the sentence for the user */
    static FleetSettings settings(ParseResult given, int quarters, long seed) {
        Map<FleetSetting, Double> values = new EnumMap<>(FleetSetting.class);
        for (FleetSetting setting : FleetSetting.values()) {
            if (given.hasMatchedOption("--" + setting.option())) {
                values.put(setting, given.matchedOptionValue("--" + setting.option(), setting.defaultValue()));
            }
        }
        return new FleetSettings(given.matchedOptionValue(DRIVES, 0), quarters, seed, values);
    }
}
