package org.wearledger.budget;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.wearledger.model.Attachment;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.FleetModel;
import org.wearledger.model.Forecast;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.Standing;

/**
 * One replacement that a machine may call for: of one socketed drive, or of all soldered ones together, since they go with the
 * board or the machine.
 *
 * @param certain the drive fails or has crossed already
 * @param curves of its two measures, as far as there are forecasts
 * @param needOn the day it should be installed, not before the as-of date; {@code null} when no date can be given or it lies beyond what is planned
 */
record Candidate(MachineAssessment machine, DriveAssessment drive, Attachment attachment, boolean certain,
                 List<CrossingCurve> curves, PriceBook.Choice choice, LocalDate needOn) {
    /** The day comes first: of soldered drives the earliest decides when the machine goes. */
    private static final Comparator<Candidate> MOST_PRESSING = Comparator
        .comparing(Candidate::needOn, Comparator.nullsLast(Comparator.<LocalDate>naturalOrder())).thenComparing(candidate -> candidate.drive.standing())
        // NaN, no forecast, comes last.
        .thenComparing(candidate -> -candidate.drive.outlook().probabilityWithin(Forecast::within8Quarters))
        .thenComparing(candidate -> candidate.drive.id());

    /** @param horizon last day planned */
    static List<Candidate> of(MachineAssessment machine, FleetModel fleet, PriceBook prices, LocalDate asOf, LocalDate horizon, BudgetSettings settings) {
        // A drive alone in its machine has none to be earlier than: it is enough that it is needed after the plan.
        LocalDate latest = machine.activeDrives().size() == 1 ? horizon : LocalDate.MAX;
        List<Candidate> all = machine.activeDrives().stream().map(drive -> of(machine, drive, fleet, prices, asOf, latest, settings)).toList();
        Candidate soldered = all.stream().filter(candidate -> candidate.attachment == Attachment.SOLDERED).min(MOST_PRESSING).orElse(null);
        // A machine is bought at most once: of drives of unknown attachment only the most pressing may turn out to take it along.
        Candidate unsettled = soldered != null ? null
            : all.stream().filter(candidate -> candidate.attachment == Attachment.UNKNOWN).min(MOST_PRESSING).orElse(null);
        return all.stream().filter(candidate -> candidate.attachment != Attachment.SOLDERED || candidate == soldered)
            .map(candidate -> candidate.attachment != Attachment.UNKNOWN || candidate == unsettled ? candidate : candidate.settled()).toList();
    }

    /** The same without a dearer choice. */
    private Candidate settled() {
        return new Candidate(machine, drive, attachment, certain, curves, new PriceBook.Choice(choice.item(), choice.item()), needOn);
    }

    private static Candidate of(MachineAssessment machine, DriveAssessment drive, FleetModel fleet, PriceBook prices, LocalDate asOf,
                                LocalDate latest, BudgetSettings settings) {
        Attachment attachment = attachment(machine, drive);
        List<CrossingCurve> curves = fleet == null ? List.of()
            : Stream.of(drive.outlook().ratingForecast(), drive.outlook().controllerForecast()).filter(Objects::nonNull)
                .filter(forecast -> !comesLater(forecast, drive.outlook().ratingForecast()) && !comesLater(forecast, drive.outlook().controllerForecast()))
                .map(forecast -> new CrossingCurve(fleet, forecast.crossing())).toList();
        boolean certain = drive.standing() == Standing.URGENT || drive.standing() == Standing.PAST_RATING;
        return new Candidate(machine, drive, attachment, certain, curves,
            prices.choose(attachment, drive.latest().drive().capacityBytes(), machine.machine().model()),
            certain ? asOf : dayOfNeed(drive, attachment, curves, asOf, latest, settings));
    }

    /** Why the figures are older than this sweep, of which a report that arrived and could not be used tells most; {@code null} when they are not. */
    String staleBecause(LocalDate asOf, int recentDays) {
        return machine.latestSetAsideBy() != null ? "a later report arrived and was set aside (" + machine.latestSetAsideBy().id() + ")"
            : !figuresOn().plusDays(recentDays).isBefore(asOf) ? null
            : machine.refused() != null ? "no usable report this sweep, " + machine.refused() : "not reported this sweep";
    }

    LocalDate figuresOn() {
        return drive.latest().collectedOn();
    }

    /** One measure's earliest tenth lies behind the other's latest: it never decides. */
    private static boolean comesLater(Forecast forecast, Forecast other) {
        return other != null && other.p90On() != null && (forecast.p10On() == null || forecast.p10On().isAfter(other.p90On()));
    }

    static Attachment attachment(MachineAssessment machine, DriveAssessment drive) {
        Attachment reported = drive.latest().drive().attachment();
        return reported == Attachment.UNKNOWN ? machine.attachment() : reported;
    }

    private static LocalDate dayOfNeed(DriveAssessment drive, Attachment attachment, List<CrossingCurve> curves, LocalDate asOf,
                                    LocalDate latest, BudgetSettings settings) {
        double p = attachment == Attachment.SOLDERED ? settings.plannedProbabilitySoldered() : settings.plannedProbability();
        LocalDate day = curves.isEmpty() ? drive.outlook().projection().dateOrNull()
            : curves.stream().filter(curve -> latest == LocalDate.MAX || curve.by(latest) >= p).map(curve -> curve.day(p)).filter(Objects::nonNull).min(Comparator.naturalOrder()).orElse(null);
        return day == null || !day.isBefore(asOf) ? day : asOf;
    }

    /** The likelier of the two measures; NaN without a forecast. */
    double probabilityBy(LocalDate day) {
        return certain ? 1 : curves.stream().mapToDouble(curve -> curve.by(day)).max().orElse(Double.NaN);
    }

    /** P(replaced by the end of the day): for certain once it is planned, else when it crosses; as independent drives. */
    double replacedBy(LocalDate day) {
        double p = isPlannedBy(day) ? 1 : probabilityBy(day);
        return Double.isNaN(p) ? 0 : p;
    }

    private boolean isPlannedBy(LocalDate day) {
        return needOn != null && !needOn.isAfter(day);
    }

    /** The same at several values of the shared shock; zeros without a forecast. */
    double[] replacedBy(LocalDate day, double[] shocks) {
        double[] most = new double[shocks.length];
        if (isPlannedBy(day)) {
            Arrays.fill(most, 1);
            return most;
        }
        for (CrossingCurve curve : curves) {
            double[] own = curve.by(day, shocks);
            Arrays.setAll(most, i -> Math.max(most[i], own[i]));
        }
        return most;
    }
}
