package org.wearledger.report;

import java.util.List;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DrivesToCheck;
import org.wearledger.model.SweepResult;

/** Sites of which nearly every drive is in doubt: not the drives are odd, but the export or its mapping. */
public final class DoubtfulSites {
    private static final int FEWEST_DRIVES = 3;
    private static final double NEARLY_ALL = 0.9;
    private static final String NO_SITE = "machines without a site";

    private DoubtfulSites() {
    }

    /** Their names, sorted; the own machines that have none count as one. */
    public static List<String> of(SweepResult result) {
        DrivesToCheck doubts = DrivesToCheck.of(result.problems());
        TreeMap<String, List<DriveAssessment>> sites = result.ownMachines().stream().collect(Collectors.groupingBy(
            machine -> machine.machine().site() == null ? NO_SITE : machine.machine().site(), TreeMap::new, Collectors.flatMapping(machine -> machine.activeDrives().stream(), Collectors.toList())));
        return sites.entrySet().stream().filter(site -> site.getValue().size() >= FEWEST_DRIVES
            && site.getValue().stream().filter(doubts::contains).count() >= NEARLY_ALL * site.getValue().size()).map(site -> site.getKey()).toList();
    }

    /** What to do about them, without a final stop; empty for none. */
    static String sentence(SweepResult result) {
        List<String> sites = of(result);
        return sites.isEmpty() ? "" : "check the mapping first, unit and dates: nearly every drive of " + String.join(", ", sites) + " is in doubt, so order nothing for "
            + (sites.size() == 1 ? "it" : "them") + " yet";
    }
}
