package org.wearledger.job;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import org.wearledger.history.ExchangedDates;
import org.wearledger.history.FleetSteps;
import org.wearledger.history.HistoryOutcome;
import org.wearledger.history.Stint;
import org.wearledger.model.Problem;

/** What joining found, over one share of the drives or over many. */
final class JoinFindings implements Serializable {
    private static final long serialVersionUID = 1;

    /** Tallies of the reading that was joined. */
    final List<IntakeTally> intake = new ArrayList<>();
    /** Of histories. */
    final List<Problem> problems = new ArrayList<>();
    final List<Stint> stints = new ArrayList<>();
    /** Measures that drives came to report later. */
    final List<LateMeasure> late = new ArrayList<>();
    /** The latest reading of each machine among the drives, packed. */
    final List<byte[]> latestReports = new ArrayList<>();
    /** Of data units written. */
    final FleetSteps steps = new FleetSteps();
    /** Folders whose dates may be in another order. */
    final ExchangedDates dates = new ExchangedDates();
    long kept;
    long setAside;
    /** That have a history. */
    long drives;

    void add(HistoryOutcome outcome) {
        steps.add(outcome);
        dates.add(outcome);
        problems.addAll(outcome.problems());
        stints.addAll(outcome.stints());
        kept += outcome.kept();
        setAside += outcome.setAside();
        if (outcome.history() != null) {
            late.addAll(LateMeasure.of(outcome.history()));
            drives++;
        }
    }

    /** Of all shares. */
    static JoinFindings added(Collection<JoinFindings> shares) {
        JoinFindings sum = new JoinFindings();
        for (JoinFindings share : shares) {
            sum.intake.addAll(share.intake);
            sum.problems.addAll(share.problems);
            sum.stints.addAll(share.stints);
            sum.late.addAll(share.late);
            sum.latestReports.addAll(share.latestReports);
            sum.steps.add(share.steps);
            sum.dates.add(share.dates);
            sum.kept += share.kept;
            sum.setAside += share.setAside;
            sum.drives += share.drives;
        }
        return sum;
    }
}
