package org.wearledger.simulate;

import java.util.List;
import java.util.stream.Collectors;

/** The sample's own description. */
final class SampleReadme {
    private SampleReadme() {
    }

    static String text(long seed, int machines, int quarters, List<Oddity> oddities) {
        return SampleFolder.filled("sample.md", seed, machines, quarters, oddities.stream()
            .map(odd -> "| " + odd.file() + " | " + odd.what() + " | " + odd.expected() + " |\n").collect(Collectors.joining()));
    }
}
