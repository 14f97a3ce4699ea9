package org.wearledger.job;

import org.apache.spark.SparkConf;
import org.apache.spark.api.java.JavaSparkContext;

/** Opens the Spark context: every core of this machine, unless told of a cluster. */
final class Spark {
    private Spark() {
    }

    /** @param master a Spark master URL; {@code null} takes what spark-submit set, else {@code local[*]} */
    static JavaSparkContext open(String master) {
        SparkConf conf = new SparkConf().setAppName("wearledger");
        String chosen = master != null ? master : conf.get("spark.master", "local[*]");
        conf.setMaster(chosen);
        conf.setIfMissing("spark.ui.enabled", "false");
        // A task's result is one partition of assessments or problems; a big fleet's exceed the default of 1 GiB.
        conf.setIfMissing("spark.driver.maxResultSize", "0");
        if (chosen.startsWith("local")) {
            conf.setIfMissing("spark.driver.bindAddress", "127.0.0.1");
            conf.setIfMissing("spark.driver.host", "127.0.0.1");
            // A task that runs out of memory fails and is told; otherwise Spark ends the whole program on the spot.
            conf.setIfMissing("spark.executor.killOnFatalError.depth", "0");
        }
        return new JavaSparkContext(conf);
    }
}
