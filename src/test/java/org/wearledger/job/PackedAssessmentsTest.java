package org.wearledger.job;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.wearledger.model.Attachment;
import org.wearledger.model.Crossing;
import org.wearledger.model.Drive;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Endurance;
import org.wearledger.model.Forecast;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;
import org.wearledger.model.Interval;
import org.wearledger.model.Machine;
import org.wearledger.model.Projection;
import org.wearledger.model.Reading;
import org.wearledger.model.SourcePlace;
import org.wearledger.model.Standing;
import org.wearledger.model.WarningSign;

class PackedAssessmentsTest {
    private static final LocalDate DAY = LocalDate.parse("2025-01-06");
    private static final Instant MOMENT = Instant.parse("2025-01-06T09:30:00.000000001Z");
    private static final Reading READING = new Reading(SourcePlace.record("a.json", 1), MOMENT, new Machine("LT-01", null, null, null, null, null, null, null),
        new Drive("KX-01", "Kestrel K2", null, null, Attachment.UNKNOWN),
        Health.builder().set(HealthField.PERCENTAGE_USED, 20).set(HealthField.DATA_UNITS_WRITTEN, BigInteger.TWO.pow(127)).build());
    private static final Forecast FORECAST = new Forecast(DAY, null, null, 0.1, Double.NaN, 0.3, 1.0 / 3, Double.MIN_VALUE, DAY, "basis",
        new Crossing(2.5, 1e-300, List.of(0.1, 0.2), MOMENT));

    static Stream<Projection> projections() {
        return Stream.of(null, new Projection.Reaches(DAY, "a line", true), new Projection.AlreadyPast(null, DAY), new Projection.None("no bytes"));
    }

    @ParameterizedTest
    @MethodSource("projections")
    void everythingComesBackExactly(Projection projection) {
        DriveAssessment full = new DriveAssessment(READING.drive().id(), READING,
            new DriveAssessment.Seen(DAY, MOMENT, 3, 1),
            new DriveAssessment.Wear(BigInteger.TWO.pow(140), new Endurance(new BigDecimal("150.00"), true, new BigDecimal("5"), "a table"), 185.3, -0.0, new Interval(1_324, Double.POSITIVE_INFINITY)),
            new DriveAssessment.Pace(1e-9, Double.MAX_VALUE, null),
            new DriveAssessment.Outlook(projection, FORECAST, null), Standing.PAST_RATING, "why",
            List.of(WarningSign.of(WarningSign.Kind.READ_ONLY), new WarningSign(WarningSign.Kind.MEDIA_ERRORS_ROSE, 12, Long.MAX_VALUE, DAY)));
        DriveAssessment bare = new DriveAssessment(READING.drive().id(), READING,
            new DriveAssessment.Seen(null, MOMENT, 1, 1),
            new DriveAssessment.Wear(null, null, null, null, null),
            new DriveAssessment.Pace(null, null, null),
            new DriveAssessment.Outlook(projection, null, null), Standing.NO_VERDICT, "nothing to go by");
        assertThat(PackedAssessments.unpack(PackedAssessments.pack(List.of(full, bare).iterator()))).containsExactly(full, bare);
    }
}
