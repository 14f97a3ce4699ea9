/**
 * The sweep as a list of named steps, and the only place that knows Spark: it hands files to {@code intake} and each
 * drive's readings to {@code history} and {@code assess}, one drive in one task, and sorts what comes back, so that
 * results do not depend on partitions, order or master.
 */
package org.wearledger.job;
