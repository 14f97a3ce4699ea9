package org.wearledger.job;

import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import org.apache.spark.api.java.JavaSparkContext;
import org.apache.spark.scheduler.SparkListener;

/** A Spark context that opens while its user goes on with what needs none: to open it takes as long as to read a small input. */
final class Session implements AutoCloseable {
    private final CompletableFuture<JavaSparkContext> opening;

    private Session(CompletableFuture<JavaSparkContext> opening) {
        this.opening = opening;
    }

    /** @param master as for {@link Spark#open} */
    static Session open(String master, SparkListener listener) {
        return new Session(CompletableFuture.supplyAsync(() -> {
            JavaSparkContext spark = Spark.open(master);
            spark.sc().addSparkListener(listener);
            return spark;
        }, task -> new Thread(task, "opening Spark").start()));
    }

    /**
     * Waits until it is open.
     *
     * @throws RuntimeException or an error: what kept it from opening
     */
    JavaSparkContext spark() {
        try {
            return opening.join();
        } catch (CompletionException e) {
            if (e.getCause() instanceof Error error) {
                throw error;
            }
            throw e.getCause() instanceof RuntimeException cause ? cause : e;
        }
    }

    @Override
    public void close() {
        opening.handle((spark, failure) -> spark).thenAccept(spark -> {
            if (spark != null) {
                spark.close();
            }
        }).join();
    }
}
