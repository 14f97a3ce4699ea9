package org.wearledger.assess;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.Attachment;
import org.wearledger.model.Drive;
import org.wearledger.model.Endurance;
import org.wearledger.model.Rating;

class RatingsTest {
    private static final Ratings RATINGS = Ratings.of(List.of(
        row("Kestrel K2", 500, 300, LocalDate.of(2024, 3, 1)), row("kestrel  k2", 1000, 600, null),
        row("Merlin M1", 256, 80, null)));

    /** 1 % of 500 GB is 5 GB: 495 and 505 GB still match. */
    @ParameterizedTest
    @CsvSource(nullValues = "-", value = {
        "KESTREL K2, 500107862016,  300,   false",
        "Kestrel K2, 495000000000,  300,   false",
        "Kestrel K2, 505000000000,  300,   false",
        "Kestrel K2, 494999999999,  297.0, true",
        "Kestrel K2, 1000204886016, 600,   false",
        "Kestrel K2, -,             -,     -",
        "Merlin M1,  -,             80,    false",
        "Plover P9,  -,             -,     -",
        "Plover P9,  250059350016,  150.0, true",
        "Plover P9,  500107862016,  300.0, true",
        "Plover P9,  1000204886016, 600.0, true",
        "Plover P9,  0,             -,     -"})
    void findsTheRatingOrAssumesOne(String model, Long capacityBytes, BigDecimal terabytes, Boolean assumed) {
        Endurance endurance = RATINGS.enduranceFor(new Drive("S-1", model, null, capacityBytes, Attachment.UNKNOWN));
        if (terabytes == null) {
            assertThat(endurance).isNull();
        } else {
            assertThat(endurance.ratedTerabytesWritten()).isEqualByComparingTo(terabytes);
            assertThat(endurance.assumed()).isEqualTo(assumed);
        }
    }

    /** Merlin M1 stands in the table at 256 GB: 274.9 GB are 256 GiB, 238.5 are its size in GiB called GB; 240 GB is another size that is sold. */
    @ParameterizedTest
    @CsvSource({"Merlin M1, 274877906944, true", "Merlin M1, 238500000000, true", "Merlin M1, 256060514304, false", "Merlin M1, 240057409536, false",
        "Merlin M1, 512110190592, false", "Merlin M1, 256000000000000, true", "Merlin M1, 250059, false", "Merlin M1, 256060514, true", "Plover P9, 274877906944, false"})
    void aCapacityThatMissesItsRowByAUnit(String model, long capacityBytes, boolean missed) {
        assertThat(RATINGS.missedByUnit(new Drive("S-1", model, null, capacityBytes, Attachment.UNKNOWN)) != null).isEqualTo(missed);
    }

    @Test
    void saysWhereTheRatingComesFrom() {
        assertThat(source("Kestrel K2", 500_000_000_000L)).isEqualTo("data sheet, 2024-03-01");
        assertThat(source("Merlin M1", 256_000_000_000L)).isEqualTo("data sheet");
        assertThat(source("Plover P9", 256_000_000_000L))
            .isEqualTo("assumed: 0.6 TB written per GB of capacity (common practice)");
    }

    private static String source(String model, long capacityBytes) {
        return RATINGS.enduranceFor(new Drive("S-1", model, null, capacityBytes, Attachment.UNKNOWN)).source();
    }

    private static Rating row(String model, int gigabytes, int terabytes, LocalDate date) {
        return new Rating(model, BigDecimal.valueOf(gigabytes), BigDecimal.valueOf(terabytes), null, "data sheet",
            date);
    }
}
