package org.wearledger.report;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import org.wearledger.model.CheckResult;
import org.wearledger.model.Problem;

/** What a check found, for people and for programs. */
public final class CheckText {
    private static final ObjectMapper JSON = new ObjectMapper();

    private CheckText() {
    }

    /** One line for each problem, then the sums. */
    public static String of(CheckResult result) {
        StringBuilder text = new StringBuilder();
        result.problems().forEach(problem -> text.append(problem.kind().id()).append(" (").append(problem.kind().effect().label()).append("): ")
            .append(VisibleText.of(problem.sentence())).append('\n'));
        text.append("files: ").append(result.files()).append(" found = ").append(result.files() - result.filesRefused()).append(" read + ")
            .append(result.filesRefused()).append(" refused\n");
        text.append("records: ").append(result.records()).append(" found = ").append(result.readings()).append(" readings + ")
            .append(result.recordsRefused()).append(" refused\n");
        text.append(result.problems().isEmpty() ? "no problem found in the input" : "problems: " + result.problems().size());
        return text.toString();
    }

    /** The same as one JSON object. */
    public static String json(CheckResult result) {
        ObjectNode root = JSON.createObjectNode();
        root.put("files", result.files()).put("filesRefused", result.filesRefused()).put("records", result.records())
            .put("recordsRefused", result.recordsRefused()).put("readings", result.readings());
        ArrayNode problems = root.putArray("problems");
        for (Problem problem : result.problems()) {
            problems.addObject().put("rule", problem.kind().id()).put("effect", problem.kind().effect().label()).put("file", problem.source().file())
                .put("place", problem.source().place()).put("subject", problem.subject()).put("found", problem.found())
                .put("expected", problem.expected()).put("remedy", problem.remedy());
        }
        try {
            // In JSON the visible form is the character itself, written otherwise.
            return VisibleText.ofLines(JSON.writerWithDefaultPrettyPrinter().writeValueAsString(root));
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("a tree of texts and numbers can be written", e);
        }
    }
}
