package org.wearledger.model;

import java.io.Serializable;
import java.util.List;

/**
 * The kept readings of one drive in time order; never empty.
 *
 * @param doubts rules by which bytes written or percentage used are doubtful, though they are used
 */
public record DriveHistory(DriveId id, List<HistoryPoint> points, List<ProblemKind> doubts) implements Serializable {
    /** @throws IllegalArgumentException when there is no point */
    public DriveHistory {
        points = List.copyOf(points);
        doubts = List.copyOf(doubts);
        if (points.isEmpty()) {
            throw new IllegalArgumentException("a history has at least one point: " + id);
        }
    }

    /** Without a doubt. */
    public DriveHistory(DriveId id, List<HistoryPoint> points) {
        this(id, points, List.of());
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
