package org.wearledger.report;

import java.util.Comparator;
import java.util.List;
import java.util.function.Function;
import java.util.stream.Stream;
import org.wearledger.model.Attachment;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DriveId;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.Standing;

/** A machine with one of its active drives; {@code drive} is {@code null} when it has none. */
record MachineRow(MachineAssessment assessment, DriveAssessment drive) {
    static final Comparator<MachineRow> BY_MACHINE = Comparator.comparing(MachineRow::machineId)
        .thenComparing(MachineRow::driveId, Comparator.nullsFirst(Comparator.naturalOrder()));
    static final Comparator<MachineRow> WORST_FIRST = Comparator.comparing(MachineRow::standing)
        .thenComparing(BY_MACHINE);

    static List<MachineRow> of(List<MachineAssessment> machines) {
        return machines.stream().flatMap(MachineRow::rows).toList();
    }

    private static Stream<MachineRow> rows(MachineAssessment machine) {
        return machine.activeDrives().isEmpty() ? Stream.of(new MachineRow(machine, null))
            : machine.activeDrives().stream().map(drive -> new MachineRow(machine, drive));
    }

    String machineId() {
        return assessment.machine().id();
    }

    private DriveId driveId() {
        return drive == null ? null : drive.id();
    }

    boolean isSeenOnce() {
        return drive != null && drive.seen().readings() == 1;
    }

    Standing standing() {
        return drive == null ? assessment.standing() : drive.standing();
    }

    /** Of both measures the larger; 0 without any. */
    double usedPercent() {
        return drive == null ? 0 : Math.max(drive.wear().consumedPercent() == null ? 0 : drive.wear().consumedPercent(), drive.percentageUsed() == null ? 0 : drive.percentageUsed());
    }

    /** With one drive the machine's reason is the drive's, and also says when the report is old. */
    String reason() {
        return assessment.activeDrives().size() <= 1 ? assessment.reason() : drive.reason();
    }

    Attachment attachment() {
        Attachment reported = drive == null ? Attachment.UNKNOWN : drive.latest().drive().attachment();
        return reported == Attachment.UNKNOWN ? assessment.attachment() : reported;
    }

    /** The standing's next step, or what to do where the drive is in another machine now; for a soldered drive it says what replacing means. */
    String nextStep() {
        boolean replace = standing().compareTo(Standing.DUE) <= 0;
        if (!assessment.isOwn()) {
            return standing().nextStepForCustomer();
        }
        return assessment.driveNowIn() != null ? assessment.ifRenamed() : standing().nextStep() + (replace && attachment() == Attachment.SOLDERED
            ? "; the drive is soldered, so the board or the machine is replaced" : "");
    }

    /** A figure of the drive, {@code null} without a drive. */
    static <R> Function<MachineRow, R> ofDrive(Function<DriveAssessment, R> figure) {
        return row -> row.drive == null ? null : figure.apply(row.drive);
    }
}
