package org.wearledger.budget;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import org.wearledger.model.Attachment;
import org.wearledger.model.Crossing;
import org.wearledger.model.Drive;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Endurance;
import org.wearledger.model.FleetModel;
import org.wearledger.model.Forecast;
import org.wearledger.model.Health;
import org.wearledger.model.Machine;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.Price;
import org.wearledger.model.Projection;
import org.wearledger.model.Reading;
import org.wearledger.model.SourcePlace;
import org.wearledger.model.Standing;

/** Hand-made assessments; every name is invented. Increments of 2.5 a quarter in shape; a share of 0.1 of the rating a quarter. */
final class Fleets {
    static final LocalDate AS_OF = LocalDate.of(2025, 1, 6);
    static final Instant READ = Instant.parse("2025-01-06T00:00:00Z");
    static final FleetModel FLEET = new FleetModel(2.5, 3, 0.03, 0.2, false, 100, 0.1, 4);
    static final FleetModel NO_SHOCK = new FleetModel(2.5, 3, 0.03, 0.2, false, 100, 0, 4);
    static final List<Price> PRICES = List.of(price("drive 256 GB", "39.00", "45.00", "3.50"), price("board", "410.00", "120.00", "3.50"),
        price("machine", "890.00", "60.00", "12.00"));

    private Fleets() {
    }

    static Price price(String item, String unitPrice, String labour, String disposalFee) {
        return new Price(item, "EUR", new BigDecimal(unitPrice), new BigDecimal(labour), new BigDecimal(disposalFee), "Invented Supplies",
            LocalDate.of(2024, 12, 2));
    }

    /** A drive of known pace that has {@code remaining} of its rating still to go: 20 quarters seen at 0.1 a quarter. */
    static DriveAssessment drive(String serial, Attachment attachment, double remaining) {
        Crossing crossing = new Crossing(3 + 2.5 * 20, 0.03 + 2.0, List.of(remaining), READ);
        Forecast forecast = new Forecast(null, null, null, 0.5, 0.1, 0.2, 0.4, 0.8, AS_OF.plusYears(9), "test", crossing);
        return drive(serial, attachment, Standing.WITHIN_RATING, 100 * (1 - remaining), new Projection.None("test"), forecast);
    }

    static DriveAssessment drive(String serial, Attachment attachment, Standing standing, double consumedPercent, Projection projection,
                                 Forecast forecast) {
        Drive drive = new Drive(serial, "Kestrel K2", "F1", 256_060_514_304L, attachment);
        Health nothing = Health.NOTHING;
        Reading reading = new Reading(SourcePlace.wholeFile(serial + ".json"), READ, new Machine("any", null, null, null, null, null, null, null),
            drive, nothing);
        return new DriveAssessment(drive.id(), reading,
            new DriveAssessment.Seen(LocalDate.of(2022, 1, 6), READ, 4, 1),
            new DriveAssessment.Wear(BigInteger.ONE, new Endurance(BigDecimal.valueOf(150), false, BigDecimal.valueOf(5), "test"), consumedPercent, null, null),
            new DriveAssessment.Pace(20.0, null, null),
            new DriveAssessment.Outlook(projection, forecast, null), standing, "reason of " + serial);
    }

    static MachineAssessment machine(String id, DriveAssessment... drives) {
        return machine(id, true, drives);
    }

    static MachineAssessment machine(String id, boolean reported, DriveAssessment... drives) {
        Standing standing = Arrays.stream(drives).map(DriveAssessment::standing).min(java.util.Comparator.naturalOrder()).orElse(Standing.NO_VERDICT);
        return new MachineAssessment(new Machine(id, "A-" + id, "North", "CC-1", "Torvane 14", 8L << 30, null, null), Attachment.UNKNOWN,
            List.of(drives), standing, "reason of " + id, drives.length == 0 ? null : READ, reported, null, LocalDate.of(2025, 6, 30), true);
    }
}
