package org.wearledger.job;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.URI;
import org.apache.spark.SparkConf;
import org.apache.spark.api.java.JavaSparkContext;

/** Opens the Spark context: every core of this machine, unless told of a cluster. */
final class Spark {
    private static final String STANDALONE = "spark://";
    private static final int MILLIS_TO_ANSWER = 10_000;

    private Spark() {
    }

    /**
     * @param master a Spark master URL; {@code null} takes what spark-submit set, else {@code local[*]}
     * @throws MasterException when Spark cannot run there
     */
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
            // A task that runs out of memory fails with a message; otherwise Spark ends the whole program on the spot.
            conf.setIfMissing("spark.executor.killOnFatalError.depth", "0");
        }
        requireMaster(chosen);
        try {
            return new JavaSparkContext(conf);
        } catch (Exception e) {
            // Of any kind: Scala declares none. On this machine it is no fault of the master.
            if (isHere(chosen)) {
                throw e;
            }
            throw new MasterException(chosen, e.getMessage(), e);
        }
    }

    private static boolean isHere(String master) {
        return master.equals("local") || master.startsWith("local[");
    }

    /** Spark itself would try for a minute, and then end under the sweep. */
    private static void requireMaster(String master) {
        if (!master.startsWith(STANDALONE)) {
            return;
        }
        for (String address : master.substring(STANDALONE.length()).split(",")) {
            try (Socket socket = new Socket()) {
                URI uri = URI.create(STANDALONE + address.strip());
                socket.connect(new InetSocketAddress(uri.getHost(), uri.getPort()), MILLIS_TO_ANSWER);
                return;
            } catch (IOException | IllegalArgumentException e) {
                // A list names masters that stand in for each other: another may answer.
                continue;
            }
        }
        throw new MasterException(master, "no master answers there", null);
    }
}
