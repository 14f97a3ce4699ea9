package org.wearledger.simulate;

import java.util.List;
import java.util.Locale;

/** The sample's own description. */
final class SampleReadme {
    private SampleReadme() {
    }

    static String text(long seed, int machines, int quarters, List<Oddity> oddities) {
        StringBuilder text = new StringBuilder(String.format(Locale.ROOT, """
            # Sample reports

            An invented office of %2$d machines, swept %3$d times. Nothing here is measured: machines, drive models, ratings
            and prices are made up. One folder a sweep, a different file format in each; side tables at the top.

            Everything in this folder, this page too, is written by

                target/wearledger/bin/wearledger simulate --out FOLDER --seed %1$d --machines %2$d --quarters %3$d

            and the same numbers give the same files (packed ones to the byte only under the same Java).

            ## What is odd on purpose

            | File | What | Expected |
            |---|---|---|
            """, seed, machines, quarters));
        for (Oddity oddity : oddities) {
            text.append("| ").append(oddity.file()).append(" | ").append(oddity.what()).append(" | ")
                .append(oddity.expected()).append(" |\n");
        }
        return text.append("""

            Model Morvane Q1 is left out of `ratings.csv`: its drives get an assumed rating. Machines with 8 GiB write about
            two and a half times as much as those with 16 GiB. The controllers' percentage used follows another endurance
            than the rated one; that of Ondrel E3 is optimistic by a factor of nine.
            """).toString();
    }
}
