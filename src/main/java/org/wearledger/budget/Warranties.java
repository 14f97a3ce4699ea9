package org.wearledger.budget;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import org.wearledger.model.Attachment;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Forecast;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.Standing;
import org.wearledger.model.WarrantyCheck.Finding;
import org.wearledger.model.WarrantyCheck;

/**
 * Checks each drive's warranty: a number of years or the rated bytes written, whichever comes first. The drive's maker answers for one that is sold alone,
 * the machine's maker for what came with the machine.
 */
public final class Warranties {

    private Warranties() {
    }

    /**
     * One check for each active drive, by finding, then by end, then by machine. The drive's end by date is its in-service date
     * plus its model's warranty years, to the whole month; the middle and early dates of passing the rating are the forecast's, by
     * the method of the straight line its date and none.
     */
    public static List<WarrantyCheck> check(Collection<MachineAssessment> machines, LocalDate asOf) {
        List<WarrantyCheck> checks = new ArrayList<>();
        for (MachineAssessment machine : machines) {
            machine.activeDrives().forEach(drive -> checks.add(check(machine, drive, asOf)));
        }
        checks.sort(Comparator.comparing(WarrantyCheck::finding)
            .thenComparing(WarrantyCheck::endsOn, Comparator.nullsLast(Comparator.naturalOrder()))
            .thenComparing(check -> check.machine().machine().id()).thenComparing(check -> check.drive().id()));
        return checks;
    }

    private static WarrantyCheck check(MachineAssessment machine, DriveAssessment drive, LocalDate asOf) {
        BigDecimal years = drive.wear().endurance() == null ? null : drive.wear().endurance().warrantyYears();
        boolean soldered = Candidate.attachment(machine, drive) == Attachment.SOLDERED;
        LocalDate ofDrive = soldered ? null : drive.warrantyEndsOn();
        LocalDate ofMachine = machine.warrantyEndsOn();
        String restsOn = soldered ? "soldered: the machine's maker answers for it" : ofDrive != null ? years.stripTrailingZeros().toPlainString() + " years from " + drive.seen().inServiceOn()
            : years == null ? "no warranty years for this drive model" : "not known when this drive went into service";
        Forecast forecast = drive.outlook().ratingForecast();
        LocalDate likely = forecast == null ? drive.outlook().projection().dateOrNull() : forecast.p50On();
        LocalDate early = forecast == null ? null : forecast.p10On();
        LocalDate last = ofDrive == null ? ofMachine : ofMachine == null || ofDrive.isAfter(ofMachine) ? ofDrive : ofMachine;
        return new WarrantyCheck(machine, drive, ofDrive, ofMachine, restsOn, likely, early, finding(drive, last, likely, early, asOf));
    }

    private static Finding finding(DriveAssessment drive, LocalDate ends, LocalDate likely, LocalDate early, LocalDate asOf) {
        if (ends == null) {
            return Finding.NOT_KNOWN;
        }
        if (ends.isBefore(asOf)) {
            return Finding.ENDED;
        }
        boolean rated = drive.wear().consumedPercent() != null && !drive.wear().endurance().assumed();
        if (rated && drive.wear().consumedPercent() >= 100) {
            return Finding.RATING_PASSED;
        }
        if (drive.standing() == Standing.URGENT) {
            return Finding.CLAIM_OPEN;
        }
        if (!rated) {
            // A rule of thumb is no maker's word.
            return Finding.RATING_NOT_KNOWN;
        }
        if (drive.standing() == Standing.PAST_RATING) {
            return Finding.CLAIM_TO_ASK;
        }
        return likely != null && !likely.isAfter(ends) ? Finding.RATING_FIRST
            : early != null && !early.isAfter(ends) ? Finding.RATING_MAYBE_FIRST : Finding.DATE_FIRST;
    }
}
