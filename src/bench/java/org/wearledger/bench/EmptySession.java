package org.wearledger.bench;

import java.util.List;
import org.apache.spark.SparkConf;
import org.apache.spark.api.java.JavaSparkContext;

/** The floor under every sweep: a Spark context as the program opens it, and one trivial job. */
final class EmptySession {
    private EmptySession() {
    }

    public static void main(String[] arguments) {
        SparkConf conf = new SparkConf().setAppName("floor").setMaster("local[*]").set("spark.ui.enabled", "false")
            .set("spark.driver.bindAddress", "127.0.0.1").set("spark.driver.host", "127.0.0.1");
        try (JavaSparkContext spark = new JavaSparkContext(conf)) {
            if (spark.parallelize(List.of(1, 2, 3)).map(number -> number + 1).count() != 3) {
                throw new IllegalStateException();
            }
        }
    }
}
