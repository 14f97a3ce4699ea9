package org.wearledger.simulate;

/** A fleet's own description. */
final class FleetReadme {
    private FleetReadme() {
    }

    static String text(FleetSettings settings) {
        StringBuilder command = new StringBuilder("bin/wearledger simulate --out FOLDER --drives " + settings.drives()
            + " --quarters " + settings.quarters() + " --seed " + settings.seed());
        StringBuilder rows = new StringBuilder();
        for (FleetSetting setting : FleetSetting.values()) {
            double value = settings.value(setting);
            if (value != setting.defaultValue()) {
                command.append(" --").append(setting.option()).append(' ').append(value);
            }
            rows.append("| `--").append(setting.option()).append("` | ").append(value).append(" | ")
                .append(setting.defaultValue()).append(" | ").append(setting.meaning()).append(" |\n");
        }
        return SampleFolder.filled("fleet.md", settings.drives(), settings.quarters(), command, settings.inverseScaleRate(), rows);
    }
}
