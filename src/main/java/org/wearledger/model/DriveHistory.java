package org.wearledger.model;

import java.io.Serializable;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;

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

    /** As most readings say, of as many the smaller: a wrong one must not raise the rating. {@code null} when none says. */
    public Long capacityBytes() {
        Long latest = latest().reading().drive().capacityBytes();
        if (latest != null && points.stream().allMatch(point -> latest.equals(point.reading().drive().capacityBytes()))) {
            return latest;
        }
        Map<Long, Long> readings = points.stream().map(point -> point.reading().drive().capacityBytes()).filter(Objects::nonNull)
            .collect(Collectors.groupingBy(Function.identity(), TreeMap::new, Collectors.counting()));
        return readings.entrySet().stream().reduce((best, next) -> next.getValue() > best.getValue() ? next : best).map(Map.Entry::getKey).orElse(null);
    }

    /** The same with one doubt more. */
    public DriveHistory doubted(ProblemKind rule) {
        return new DriveHistory(id, points, Stream.concat(doubts.stream(), Stream.of(rule)).distinct().sorted().toList());
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
