package org.wearledger.simulate;

import java.util.Locale;

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
        return String.format(Locale.ROOT, """
            # A fleet with known truth

            %1$d invented machines, swept %2$d times. Nothing here is measured: machines, drive models and ratings are made
            up. Written by

                %3$s

            and the same numbers give the same files (packed ones to the byte only under the same Java).

            - `reports/` is to be swept: one folder a sweep, `ratings.csv` and `inventory.csv` at its top.
            - `truth/` is what no report says. Do not sweep it; compare results with it.

            ## How it is drawn

            Each drive has an inverse scale u ~ Gamma(shape delta0, rate gamma0), gamma0 = %4$s. What it writes in one
            quarter of 91.3125 days, as a share of its rated endurance, is Gamma(shape eta, rate u) times the factors of its
            model, memory, season, drift and shock; an interval of another length has the shape eta x length. Before the
            first sweep, season, drift, shock and idling are nought. Swaps and resets happen right after a sweep, so that every
            write is in some report, unless a sweep was missed. A reset can hide: when the counters after it have passed
            those before it, no report shows that they restarted. Writes are cut at 18 times the capacity a day. A new or
            reset counter starts at one data unit, written too, because 0 stands for "not reported".

            | Option | Here | Default | Meaning |
            |---|---|---|---|
            %5$s
            ## truth/drives.csv

            One row a drive, those that were replaced too. `inverseScale` is u. `startRatePerQuarter` and
            `endRatePerQuarter` are the expected share of the rating consumed in a quarter: eta / u x the factors of model,
            memory, drift and shock, without season and idle quarters, when the drive came into view and in its last quarter.
            `dataUnitsWritten` (512,000 bytes each) and `bytesWritten` are the whole life, over resets.
            `swappedInQuarter` is the sweep that first saw a replacing drive, `swappedOutQuarter` the one that saw its
            successor.

            ## truth/settings.csv

            Every setting, gamma0 as `inverseScaleRate`, the factor of each model, and the shared shock: `shockLogRate` of the
            quarter that ends with the named sweep.
            """, settings.drives(), settings.quarters(), command, settings.inverseScaleRate(), rows);
    }
}
