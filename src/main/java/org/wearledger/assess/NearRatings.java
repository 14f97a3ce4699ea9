package org.wearledger.assess;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.apache.commons.text.similarity.LevenshteinDistance;
import org.wearledger.model.Drive;
import org.wearledger.model.DriveId;
import org.wearledger.model.Rating;
import org.wearledger.model.SourcePlace;

/**
 * Rows of the ratings table that fit no drive by a slip, most likely: of a model spelt nearly as the drive's, or of its model at another
 * capacity. Rows of models that other drives report are theirs, and rows near no drive are those of drives long gone.
 */
final class NearRatings {
    private static final int MOST_SLIPS = 3;
    /** Fewer slips than half of the letters. */
    private static final int LETTERS_PER_SLIP = 2;
    /** A shorter name stands within too many others. */
    private static final int SHORTEST_PART = 4;
    private static final int MOST_NAMED = 3;

    /** @param model folded */
    record Row(Rating rating, String model, SourcePlace place) {
    }

    private final List<Row> rows = new ArrayList<>();
    private final Set<String> reported;

    /**
     * @param places of the rows, in their order
     * @param reported the drives of the fleet
     */
    NearRatings(List<Rating> ratings, List<SourcePlace> places, Collection<Drive> reported) {
        for (int i = 0; i < ratings.size(); i++) {
            rows.add(new Row(ratings.get(i), DriveId.fold(ratings.get(i).driveModel()), places.get(i)));
        }
        this.reported = reported.stream().map(drive -> DriveId.fold(drive.model())).collect(Collectors.toSet());
    }

    /**
     * The nearest rows, up to three, for a drive that none fits.
     *
     * @param drive whose latest report may leave out the capacity; then rows of its own model only
     */
    List<Row> near(Drive drive) {
        String model = DriveId.fold(drive.model());
        BigDecimal gigabytes = drive.capacityBytes() == null ? BigDecimal.ZERO : Ratings.gigabytes(drive.capacityBytes());
        return rows.stream()
            .filter(row -> row.model().equals(model) || !reported.contains(row.model()) && Ratings.fits(row.rating(), gigabytes) && isNear(model, row.model()))
            .sorted(Comparator.comparing((Row row) -> slips(model, row.model())).thenComparing(Row::place))
            .limit(MOST_NAMED).toList();
    }

    private static boolean isNear(String model, String other) {
        int slips = slips(model, other);
        return slips <= MOST_SLIPS && LETTERS_PER_SLIP * slips < model.length() || other.length() >= SHORTEST_PART && model.contains(other)
            || model.length() >= SHORTEST_PART && other.contains(model);
    }

    private static int slips(String model, String other) {
        return LevenshteinDistance.getDefaultInstance().apply(model, other);
    }
}
