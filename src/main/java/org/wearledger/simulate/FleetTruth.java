package org.wearledger.simulate;

import java.io.BufferedWriter;
import java.io.IOException;
import java.math.BigInteger;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.wearledger.model.Health;

/** What the fleet was drawn from, which no report says. */
final class FleetTruth {
    static final String DRIVES = "drives.csv";
    static final String SETTINGS = "settings.csv";
    private static final CSVFormat FORMAT = CSVFormat.RFC4180.builder().setRecordSeparator('\n').get();

    private FleetTruth() {
    }

    static void write(Path folder, FleetCourse course, List<FleetMachine> machines) throws IOException {
        try (BufferedWriter text = Files.newBufferedWriter(folder.resolve(DRIVES)); CSVPrinter csv = new CSVPrinter(text, FORMAT)) {
            csv.printRecord("driveSerial", "driveModel", "machineId", "memoryGibibytes", "inverseScale",
                "startRatePerQuarter", "endRatePerQuarter", "dataUnitsWritten", "bytesWritten", "resets", "swappedInQuarter",
                "swappedOutQuarter");
            for (FleetMachine machine : machines) {
                printDrives(csv, course, machine);
            }
        }
        try (BufferedWriter text = Files.newBufferedWriter(folder.resolve(SETTINGS)); CSVPrinter csv = new CSVPrinter(text, FORMAT)) {
            printSettings(csv, course);
        }
    }

    private static void printDrives(CSVPrinter csv, FleetCourse course, FleetMachine machine) throws IOException {
        List<FleetDrive> drives = machine.drives();
        for (int i = 0; i < drives.size(); i++) {
            FleetDrive drive = drives.get(i);
            BigInteger dataUnits = BigInteger.valueOf(drive.totalDataUnitsWritten());
            csv.printRecord(drive.serial(), drive.model.name(), machine.workstation.id(), machine.workstation.memoryGibibytes,
                drive.inverseScale, drive.startRatePerQuarter, drive.ratePerQuarter(), dataUnits,
                dataUnits.multiply(Health.BYTES_PER_DATA_UNIT), drive.resets(), swapQuarter(course, drive),
                i + 1 < drives.size() ? swapQuarter(course, drives.get(i + 1)) : "");
        }
    }

    /** The sweep that reports the drive first; empty for one that was there from the start. */
    private static String swapQuarter(FleetCourse course, FleetDrive drive) {
        return drive.installedAfterSweep < 0 ? "" : course.quarterName(drive.installedAfterSweep + 1);
    }

    private static void printSettings(CSVPrinter csv, FleetCourse course) throws IOException {
        FleetSettings settings = course.settings;
        csv.printRecord("setting", "of", "value");
        csv.printRecord("drives", "", settings.drives());
        csv.printRecord("quarters", "", settings.quarters());
        csv.printRecord("seed", "", settings.seed());
        for (FleetSetting setting : FleetSetting.values()) {
            csv.printRecord(setting.nameWithUnit(), "", settings.value(setting));
        }
        csv.printRecord("inverseScaleRate", "", settings.inverseScaleRate());
        for (DriveModel model : DriveModel.ALL) {
            csv.printRecord("modelFactor", model.name(), course.modelFactor(model));
        }
        for (int sweep = 0; sweep < settings.quarters(); sweep++) {
            csv.printRecord("shockLogRate", course.quarterName(sweep), course.shockLogRate(sweep));
        }
    }
}
