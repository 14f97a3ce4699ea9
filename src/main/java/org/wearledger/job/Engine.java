package org.wearledger.job;

import org.wearledger.model.Progress;

/**
 * Where and how a job runs; no result depends on it.
 *
 * @param master a Spark master URL; {@code null} takes what spark-submit set, else every core of this machine
 * @param partitions how many parts to work in, {@code null} for as many as the size of the input asks for
 * @param progress hears how far it has come
 */
public record Engine(String master, Integer partitions, Progress progress) {
}
