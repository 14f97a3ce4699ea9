package org.wearledger.report;

import java.time.LocalDate;
import java.util.Set;
import java.util.stream.Collectors;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DriveId;
import org.wearledger.model.Endurance;
import org.wearledger.model.Forecast;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.PlannedReplacement;
import org.wearledger.model.Projection;
import org.wearledger.model.SweepResult;
import org.wearledger.model.WarrantyCheck;

/** What the summary says of one machine and drive, by its standing. */
final class MachineLines {
    private static final double MEASURES_DISAGREE_POINTS = 50;

    private final SweepResult result;
    private final PlanLines plan;
    private final Set<DriveId> claims;

    MachineLines(SweepResult result) {
        this.result = result;
        plan = new PlanLines(result.budget());
        claims = result.warranties().stream().filter(check -> check.finding() == WarrantyCheck.Finding.CLAIM_OPEN)
            .map(check -> check.drive().id()).collect(Collectors.toSet());
    }

    /** With what the plan has for it. */
    String of(MachineRow row) {
        return switch (row.standing()) {
            case URGENT -> urgentEntry(row) + order(row);
            case PAST_RATING -> pastEntry(row) + order(row);
            case DUE, WATCH -> datedEntry(row) + order(row);
            case WITHIN_RATING, NO_VERDICT -> (row.drive() == null ? place(row.assessment()) : driveAt(row)) + ": " + row.reason();
        };
    }

    /** What the plan has for the drive, and when it is to be ordered. */
    private String order(MachineRow row) {
        PlannedReplacement line = plan.of(row);
        return line == null ? "" : "; " + (claims.contains(line.drive()) ? "ask the maker first; if it declines, " : "")
            + (line.late() ? "order at once: " : "order by " + line.orderByOn() + ": ") + line.item() + ", "
            + (line.price() == null ? "no price" : Wording.amount(line.amount(), result.budget().currency()));
    }

    private static String urgentEntry(MachineRow row) {
        return row.drive() == null ? place(row.assessment()) + ": " + row.reason()
            : driveAt(row) + ": " + row.reason()
            + (row.reason().contains("the controller itself reports") ? "" : percentageUsed(row.drive())) + source(row);
    }

    private static String pastEntry(MachineRow row) {
        return row.drive() == null ? place(row.assessment()) + ": " + row.reason()
            : driveAt(row) + ": " + writtenOfRated(row.drive()) + percentageUsed(row.drive()) + measures(row.drive());
    }

    private String datedEntry(MachineRow row) {
        if (row.drive() == null) {
            return place(row.assessment()) + ": " + row.reason();
        }
        DriveAssessment drive = row.drive();
        return driveAt(row) + ": " + (drive.ratingForecast() != null || drive.controllerForecast() != null ? forecast(drive) + "; " + writtenOfRated(drive)
            : drive.projection() instanceof Projection.Reaches reaches
            ? "reaches its rating about " + Wording.projectedDate(reaches.date(), result.asOf())
                + (reaches.beyondEvidence() ? " (beyond evidence)" : "") + "; " + writtenOfRated(drive)
            : row.reason() + source(row));
    }

    /** The reason has the figures; an assumed rating it names itself. */
    private static String source(MachineRow row) {
        Endurance endurance = row.drive().endurance();
        return endurance == null || endurance.assumed() ? "" : "; rating: " + endurance.source();
    }

    /** The threshold that is likelier to be reached within four quarters. */
    private String forecast(DriveAssessment drive) {
        boolean ofRating = drive.ratingForecast() != null && (drive.controllerForecast() == null
            || drive.ratingForecast().within4Quarters() >= drive.controllerForecast().within4Quarters());
        Forecast forecast = ofRating ? drive.ratingForecast() : drive.controllerForecast();
        return (ofRating ? "reaches its rating" : "its controller reaches 100 %") + " within 4 quarters with a probability of "
            + Wording.probability(forecast.within4Quarters()) + ", as likely as not by " + date(forecast, forecast.p50On())
            + ", 8 chances in 10 between " + date(forecast, forecast.p10On()) + " and " + date(forecast, forecast.p90On());
    }

    private String date(Forecast forecast, LocalDate date) {
        return date == null ? "more than ten years ahead" : Wording.projectedDate(date, result.asOf())
            + (forecast.isBeyondEvidence(date) ? " (beyond evidence)" : "");
    }

    private static String driveAt(MachineRow row) {
        return place(row.assessment()) + ", " + row.drive().latest().drive().model();
    }

    /** The machine, and its site where one is known. */
    static String place(MachineAssessment assessment) {
        String site = assessment.machine().site();
        return assessment.machine().id() + (site == null ? "" : " at " + site);
    }

    private static String writtenOfRated(DriveAssessment drive) {
        String written = drive.bytesWritten() == null ? "bytes written not reported"
            : Wording.number(drive.terabytesWritten(), 1) + " TB written";
        return drive.endurance() == null ? written + ", no rating known"
            : written + " of " + Wording.number(drive.endurance().ratedTerabytesWritten(), 1) + " TB rated ("
                + Wording.ratingSource(drive.endurance()) + ")";
    }

    private static String percentageUsed(DriveAssessment drive) {
        Integer used = drive.percentageUsed();
        return used == null ? ", percentage used not reported"
            : ", percentage used " + used + " %" + (used == 255 ? " or more" : "");
    }

    /** The two measures disagree when just one of them stands at 100 % or more, or when they lie far apart. */
    private static String measures(DriveAssessment drive) {
        Double consumed = drive.consumedPercent();
        Integer used = drive.percentageUsed();
        if (consumed == null || used == null
            || consumed >= 100 == used >= 100 && Math.abs(consumed - used) <= MEASURES_DISAGREE_POINTS) {
            return "";
        }
        return "; the two measures disagree: " + Wording.number(consumed, 0)
            + " % of the rated writes against " + used + " % by the controller"
            + (drive.impliedEnduranceTerabytes() == null ? ""
                : ", which implies an endurance of " + Wording.terabytes(drive.impliedEnduranceTerabytes()));
    }
}
