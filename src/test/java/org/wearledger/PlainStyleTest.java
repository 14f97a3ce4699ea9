package org.wearledger;

import static org.assertj.core.api.Assertions.assertThat;

import com.sun.source.tree.CompilationUnitTree;
import com.sun.source.tree.ConditionalExpressionTree;
import com.sun.source.tree.IfTree;
import com.sun.source.tree.LineMap;
import com.sun.source.tree.MethodTree;
import com.sun.source.tree.SwitchExpressionTree;
import com.sun.source.tree.SwitchTree;
import com.sun.source.tree.Tree;
import com.sun.source.util.JavacTask;
import com.sun.source.util.SourcePositions;
import com.sun.source.util.TreePathScanner;
import com.sun.source.util.Trees;
import java.io.IOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import javax.tools.JavaCompiler;
import javax.tools.JavaFileObject;
import javax.tools.SimpleJavaFileObject;
import javax.tools.StandardJavaFileManager;
import javax.tools.ToolProvider;
import org.junit.jupiter.api.Test;

/**
 * What a reader can take in at once: no method of the product is longer than 40 lines, and no condition stands within more than one other. A condition is an
 * {@code if}, a {@code switch} or a conditional expression; what follows an {@code else} counts as beside it.
 */
class PlainStyleTest {
    private static final int MOST_LINES = 40;
    private static final int MOST_CONDITIONS = 2;
    /** Each has a list of columns or cells, one a line: in pieces it would be no easier to read. */
    private static final Set<String> LISTS = Set.of("AssumptionsSheet.java", "BudgetTables.java", "PeriodTable.java");
    private static final JavaCompiler COMPILER = ToolProvider.getSystemJavaCompiler();

    @Test
    void methodsAreShortAndConditionsStandSideBySide() throws IOException {
        try (StandardJavaFileManager files = COMPILER.getStandardFileManager(null, null, null);
             Stream<Path> sources = Files.walk(Path.of("src/main/java"))) {
            assertThat(found(files.getJavaFileObjectsFromPaths(sources.filter(path -> path.toString().endsWith(".java")).sorted().toList()))).isEmpty();
        }
    }

    @Test
    void whatIsNotPlainIsNamed() throws IOException {
        String source = """
            class Thing {
                String plain(int a) {
                    if (a == 1) {
                        return "one";
                    } else if (a == 2) {
                        return "two";
                    } else if (a == 3) {
                        return a > 5 ? "x" : a > 4 ? "y" : "z";
                    }
                    return "other";
                }
                void nested(boolean a, boolean b) {
                    if (a) {
                        if (b) {
                            System.gc();
                        } else {
                            int c = a ? 1 : 2;
                        }
                    }
                }
                int expression(boolean a) {
                    return a ? a ? 1 : a ? 2 : 3 : (a ? (a ? 4 : 5) : 6);
                }
                void lengthy() {
            """ + "        plain(1);\n".repeat(39) + "    }\n}\n";
        assertThat(found(List.of(new SimpleJavaFileObject(URI.create("string:///Thing.java"), JavaFileObject.Kind.SOURCE) {
            @Override
            public CharSequence getCharContent(boolean ignoreEncodingErrors) {
                return source;
            }
        }))).containsExactly("Thing.java:17: 3 conditions within each other", "Thing.java:22: 3 conditions within each other",
            "Thing.java:24: a method of 41 lines");
    }

    private static List<String> found(Iterable<? extends JavaFileObject> sources) throws IOException {
        JavacTask task = (JavacTask) COMPILER.getTask(null, null, null, List.of("-proc:none"), null, sources);
        SourcePositions positions = Trees.instance(task).getSourcePositions();
        List<String> found = new ArrayList<>();
        for (CompilationUnitTree unit : task.parse()) {
            new Scanner(unit, positions, found).scan(unit, 0);
        }
        return found;
    }

    /** Carries the number of conditions around what it looks at. */
    private static final class Scanner extends TreePathScanner<Void, Integer> {
        private final CompilationUnitTree unit;
        private final SourcePositions positions;
        private final LineMap lines;
        private final List<String> found;

        Scanner(CompilationUnitTree unit, SourcePositions positions, List<String> found) {
            this.unit = unit;
            this.positions = positions;
            this.found = found;
            lines = unit.getLineMap();
        }

        @Override
        public Void visitMethod(MethodTree method, Integer around) {
            long length = lines.getLineNumber(positions.getEndPosition(unit, method)) - line(method) + 1;
            if (length > MOST_LINES && !LISTS.contains(file())) {
                found.add(place(method) + "a method of " + length + " lines");
            }
            return super.visitMethod(method, 0);
        }

        @Override
        public Void visitIf(IfTree condition, Integer around) {
            boolean isElse = getCurrentPath().getParentPath().getLeaf() instanceof IfTree before && before.getElseStatement() == condition;
            return super.visitIf(condition, isElse ? around : entered(condition, around));
        }

        @Override
        public Void visitSwitch(SwitchTree condition, Integer around) {
            return super.visitSwitch(condition, entered(condition, around));
        }

        @Override
        public Void visitSwitchExpression(SwitchExpressionTree condition, Integer around) {
            return super.visitSwitchExpression(condition, entered(condition, around));
        }

        @Override
        public Void visitConditionalExpression(ConditionalExpressionTree condition, Integer around) {
            boolean isElse = getCurrentPath().getParentPath().getLeaf() instanceof ConditionalExpressionTree before && before.getFalseExpression() == condition;
            return super.visitConditionalExpression(condition, isElse ? around : entered(condition, around));
        }

        private int entered(Tree condition, int around) {
            if (around == MOST_CONDITIONS) {
                found.add(place(condition) + (around + 1) + " conditions within each other");
            }
            return around + 1;
        }

        private long line(Tree tree) {
            return lines.getLineNumber(positions.getStartPosition(unit, tree));
        }

        private String place(Tree tree) {
            return file() + ":" + line(tree) + ": ";
        }

        private String file() {
            return Path.of(unit.getSourceFile().toUri().getPath()).getFileName().toString();
        }
    }
}
