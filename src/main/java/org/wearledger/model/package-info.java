/**
 * The immutable facts that the stages hand to each other: readings, histories, assessments, summaries, problems. Knows
 * only the JDK. Every record is {@code Serializable} and holds no {@code Optional}, because it travels through Spark;
 * a {@code null} component means "not reported" and its Javadoc says so.
 */
package org.wearledger.model;
