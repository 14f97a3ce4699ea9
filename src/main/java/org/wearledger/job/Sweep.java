package org.wearledger.job;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.function.Consumer;
import java.util.function.Predicate;
import org.wearledger.assess.Backtest;
import org.wearledger.assess.BacktestSummary;
import org.wearledger.assess.WearPast;
import org.wearledger.budget.SweepComparison;
import org.wearledger.intake.EarlierSweep;
import org.wearledger.intake.InputMissingException;
import org.wearledger.model.BacktestRun;
import org.wearledger.model.ComparedSweeps;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.MachineStory;
import org.wearledger.model.Price;
import org.wearledger.model.SweepResult;
import org.wearledger.model.SweepSnapshot;

/** One sweep, from report files to its result; and the backtest of its forecasts. */
public final class Sweep {
    /** Drives that a backtest forecasts, at most. */
    private static final int MOST_DRIVES_BACKTESTED = 2_000;


    private interface Work<T> {
        T on(JoinedFleet fleet) throws IOException;
    }

    private Sweep() {
    }

    /**
     * Reads, joins and assesses.
     *
     * @throws InputRefusedException when an input is not there or cannot serve as what it is named for
     */
    public static SweepResult run(SweepRequest request, Engine engine) throws IOException {
        SweepSnapshot earlier = earlier(request);
        return joined(request, engine, fleet -> {
            SweepResult result = Assessing.of(fleet, request);
            if (earlier == null && request.compareWith() == null) {
                return result;
            }
            if (result.isOfCustomersAlone()) {
                throw new InputMissingException("--previous and --compare-with compare own machines, and all of these are customers': leave the option out");
            }
            if (result.plan().budget() == null) {
                return result;
            }
            List<Price> prices = fleet.findings.inputs().tables().prices().values();
            if (earlier != null) {
                return compared(result, earlier, prices, request.pseudonyms().isNone() ? "the sweep in " + request.earlier() : "an earlier sweep");
            }
            SweepResult before = earlierDay(fleet, request, result.asOf());
            return compared(result, SweepComparison.snapshot(before.ownMachines(), before.plan().budget(), prices), prices, "the same reports as of " + request.compareWith());
        });
    }

    /** The same reports, judged on the day that is asked for. */
    private static SweepResult earlierDay(JoinedFleet fleet, SweepRequest request, LocalDate asOf) throws IOException {
        LocalDate day = request.compareWith();
        if (!day.isBefore(asOf)) {
            throw new InputMissingException("--compare-with " + day + " is not before the as-of date, " + asOf);
        }
        SweepRequest then = request.on(day);
        SweepResult before = Assessing.of(fleet.under(then), then);
        if (before.accounting().readingsKept() == 0 || before.plan().budget() == null) {
            throw new InputMissingException("--compare-with " + day + ": there is no reading up to that date");
        }
        return before;
    }

    /** Read first: a folder that holds no sweep is better told before the work than after it. */
    private static SweepSnapshot earlier(SweepRequest request) throws IOException {
        try {
            return request.earlier() == null ? null : request.pseudonyms().of(EarlierSweep.read(Path.of(request.earlier())));
        } catch (InputMissingException e) {
            if (!request.pseudonyms().isNone()) {
                throw new InputRefusedException("no earlier sweep can be read in " + request.earlier() + "; without --pseudonymise it is said why", e);
            }
            throw new InputRefusedException(e.getMessage(), e);
        }
    }

    /**
     * Reads and joins alike, then forecasts from each past sweep and holds that against what came, for at most 2,000 drives.
     *
     * @param seed of the resampling of sweeps
     */
    public static BacktestRun backtest(SweepRequest request, Engine engine, long seed) throws IOException {
        return joined(request, engine, fleet -> {
            List<WearPast> sample = fleet.sample(MOST_DRIVES_BACKTESTED).stream().filter(past -> !past.byPercentage()).toList();
            return new BacktestRun(request.version(), fleet.findings.accounting(), fleet.drivesByBytes(), sample.size(),
                BacktestSummary.of(Backtest.run(sample, Backtest.HORIZONS), seed), fleet.findings.problems().stream().sorted().toList());
        });
    }

    /**
     * Sweeps, and tells one machine's story.
     *
     * @throws InputRefusedException also when no report and no inventory row names the machine
     */
    public static MachineStory explain(SweepRequest request, String machineId, Engine engine) throws IOException {
        return joined(request, engine, fleet -> new Stories(fleet, Assessing.of(fleet, request)).of(request.pseudonyms().machine(machineId)));
    }

    /**
     * Sweeps once, and tells the story of every such machine, by machine id.
     *
     * @param each is given one after another
     * @return the sweep that they are of
     */
    public static SweepResult explain(SweepRequest request, Predicate<MachineAssessment> which, Engine engine, Consumer<MachineStory> each) throws IOException {
        return joined(request, engine, fleet -> {
            SweepResult result = Assessing.of(fleet, request);
            new Stories(fleet, result).ofAll(which, each);
            return result;
        });
    }

    private static <T> T joined(SweepRequest request, Engine engine, Work<T> work) throws IOException {
        try (Session session = Session.open(engine.master(), new TaskProgress(engine.progress()))) {
            return work.on(JoinedFleet.of(session, Inputs.of(request), engine.partitions()));
        } catch (InputMissingException e) {
            throw new InputRefusedException(e.getMessage(), e);
        }
    }

    private static SweepResult compared(SweepResult r, SweepSnapshot before, List<Price> prices, String with) {
        ComparedSweeps comparison = SweepComparison.between(before, SweepComparison.snapshot(r.ownMachines(), r.plan().budget(), prices), with, r.asOf(), r.plan().budget().settings());
        return r.compared(SweepComparison.with(r.plan().decisions(), comparison));
    }
}
