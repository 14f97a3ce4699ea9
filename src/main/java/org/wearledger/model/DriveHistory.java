package org.wearledger.model;

import java.io.Serializable;
import java.util.List;

/** The kept readings of one drive in time order; never empty. */
public record DriveHistory(DriveId id, List<HistoryPoint> points) implements Serializable {
    /** @throws IllegalArgumentException when there is no point */
    public DriveHistory {
        points = List.copyOf(points);
        if (points.isEmpty()) {
            throw new IllegalArgumentException("a history has at least one point: " + id);
        }
    }

    /** The earliest kept reading. */
    public HistoryPoint first() {
        return points.get(0);
    }

    /** The latest kept reading, which the assessment speaks of. */
    public HistoryPoint latest() {
        return points.get(points.size() - 1);
    }
}
