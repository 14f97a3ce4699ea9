package org.wearledger.assess;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.Attachment;
import org.wearledger.model.Drive;
import org.wearledger.model.Rating;
import org.wearledger.model.SourcePlace;

/** A slip in a ratings row is pointed at; the rows that an office keeps of drives long gone are not. */
class NearRatingsTest {
    private static final List<Rating> ROWS = List.of(row("Velkan D2", 256), row("Velkan D3", 256), row("Paldn X", 1000), row("Palden Xtra", 1000),
        row("Ondrel E3", 512), row("Tor", 256), row("Quillon", 512));

    /** The fleet reports Velkan D2 and the drive asked for: Velkan D3 may be meant for a Velkan D4, D2 is not. 1 % of 1,000 GB is 10 GB. */
    @ParameterizedTest(name = "{0} of {1} bytes: {2}")
    @CsvSource(delimiter = '|', nullValues = "-", textBlock = """
        Palden X    | 1000204886016 | line 4 has Paldn X, 1000 GB, line 5 has Palden Xtra, 1000 GB
        paldn  y    | 1010000000000 | line 4 has Paldn X, 1000 GB
        Palden X    | 1010000000001 | -
        Velkan D4   | 256060514304  | line 3 has Velkan D3, 256 GB
        Ondrel E3   | 500107862016  | line 6 has Ondrel E3, 512 GB
        Quillon Pro | 512110190592  | line 8 has Quillon, 512 GB
        Toran Q     | 256060514304  | -
        Tarn        | 256060514304  | -
        Paldn X     | -             | line 4 has Paldn X, 1000 GB
        Tors        | 256060514304  | line 7 has Tor, 256 GB
        """)
    void aRowThatASlipKeepsFromADriveIsNamed(String model, Long capacityBytes, String near) {
        Drive drive = drive(model, capacityBytes);
        List<SourcePlace> places = IntStream.range(0, ROWS.size()).mapToObj(i -> SourcePlace.line("ratings.csv", i + 2)).toList();
        assertThat(new NearRatings(ROWS, places, List.of(drive("VELKAN D2", 256060514304L), drive)).near(drive).stream()
            .map(row -> row.place().place() + " has " + row.rating().driveModel() + ", " + row.rating().nominalCapacityGigabytes() + " GB").collect(Collectors.joining(", "))).isEqualTo(near == null ? "" : near);
    }

    private static Drive drive(String model, Long capacityBytes) {
        return new Drive("S-1", model, null, capacityBytes, Attachment.UNKNOWN);
    }

    private static Rating row(String model, int gigabytes) {
        return new Rating(model, BigDecimal.valueOf(gigabytes), BigDecimal.valueOf(300), null, "invented", null);
    }
}
