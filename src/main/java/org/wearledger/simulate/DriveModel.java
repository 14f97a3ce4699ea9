package org.wearledger.simulate;

import java.util.List;

/**
 * An invented drive model.
 *
 * @param ratedTerabytesWritten what the ratings table says
 * @param apparentTerabytes host writes at which the controller's own estimate reaches 100 %, seldom the rated figure
 */
record DriveModel(String name, String firmware, long capacityBytes, int ratedTerabytesWritten, int warrantyYears,
                  int apparentTerabytes) {
    /** Its controller is optimistic by a factor of nine. */
    static final DriveModel ONDREL = new DriveModel("Ondrel E3", "E3A07", 256_060_514_304L, 150, 3, 1385);
    static final DriveModel VELKAN = new DriveModel("Velkan D2", "2.11", 256_060_514_304L, 150, 5, 165);
    static final DriveModel TESSALY = new DriveModel("Tessaly C5", "C5-104", 512_110_190_592L, 300, 5, 420);
    /** Stands in no ratings table, so that its rating is assumed. */
    static final DriveModel MORVANE = new DriveModel("Morvane Q1", "Q1R3", 512_110_190_592L, 160, 3, 150);
    static final DriveModel BRIGHTFEN = new DriveModel("Brightfen P7", "P7.02", 1_000_204_886_016L, 600, 5, 900);

    static final List<DriveModel> ALL = List.of(ONDREL, VELKAN, TESSALY, MORVANE, BRIGHTFEN);
    static final List<DriveModel> RATED = List.of(ONDREL, VELKAN, TESSALY, BRIGHTFEN);

    /** Decimal gigabytes as printed on the drive. */
    long nominalCapacityGigabytes() {
        return capacityBytes / 1_000_000_000L;
    }
}
