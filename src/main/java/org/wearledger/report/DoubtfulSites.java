package org.wearledger.report;

import java.util.List;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DrivesToCheck;
import org.wearledger.model.Machine;
import org.wearledger.model.SweepResult;

/** Sites with so many drives in doubt that not the drives are odd, but the export or its mapping: of a wrong unit only some show it. */
public final class DoubtfulSites {
    private static final int FEWEST_DRIVES = 3;
    private static final double LEAST_SHARE = 1.0 / 3;
    private static final String NO_SITE = "machines without a site";

    private DoubtfulSites() {
    }

    /** Their names, sorted; the own machines that have none count as one. */
    public static List<String> of(SweepResult result) {
        DrivesToCheck doubts = DrivesToCheck.of(result.problems());
        TreeMap<String, List<DriveAssessment>> sites = result.ownMachines().stream().collect(Collectors.groupingBy(
            machine -> site(machine.machine()), TreeMap::new, Collectors.flatMapping(machine -> machine.activeDrives().stream(), Collectors.toList())));
        return sites.entrySet().stream().filter(site -> {
            long inDoubt = site.getValue().stream().filter(doubts::contains).count();
            return inDoubt >= FEWEST_DRIVES && inDoubt >= LEAST_SHARE * site.getValue().size();
        }).map(site -> site.getKey()).toList();
    }

    /** Under which the machine counts. */
    static String site(Machine machine) {
        return machine.site() == null ? NO_SITE : machine.site();
    }

    /** What to do about them, without a final stop; empty for none. */
    static String sentence(SweepResult result) {
        List<String> sites = of(result);
        return sites.isEmpty() ? "" : "check the mapping first, unit and dates: a third or more of the drives of " + String.join(", ", sites) + " are in doubt, so order nothing for "
            + (sites.size() == 1 ? "it" : "them") + " yet";
    }
}
