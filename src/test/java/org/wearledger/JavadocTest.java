package org.wearledger;

import static org.assertj.core.api.Assertions.assertThat;

import com.sun.source.tree.ClassTree;
import com.sun.source.tree.MethodTree;
import com.sun.source.tree.Tree;
import com.sun.source.tree.VariableTree;
import com.sun.source.util.DocTrees;
import com.sun.source.util.JavacTask;
import com.sun.source.util.TreePath;
import com.sun.source.util.TreePathScanner;
import java.io.IOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import javax.lang.model.element.Modifier;
import javax.tools.JavaCompiler;
import javax.tools.JavaFileObject;
import javax.tools.SimpleJavaFileObject;
import javax.tools.StandardJavaFileManager;
import javax.tools.ToolProvider;
import org.junit.jupiter.api.Test;

/**
 * Every public or protected type, method, constructor and field of the product has a comment. What overrides is described where
 * it was declared first, a record's constructor by the record, an enum constant by its name or the words it carries. That
 * comments are well formed and their references exist is the compiler's business ({@code -Xdoclint}).
 */
class JavadocTest {
    private static final JavaCompiler COMPILER = ToolProvider.getSystemJavaCompiler();

    @Test
    void everyPublicThingOfTheProductHasAComment() throws IOException {
        try (StandardJavaFileManager files = COMPILER.getStandardFileManager(null, null, null);
             Stream<Path> sources = Files.walk(Path.of("src/main/java"))) {
            assertThat(withoutComment(files.getJavaFileObjectsFromPaths(
                sources.filter(path -> path.toString().endsWith(".java")).sorted().toList()))).isEmpty();
        }
    }

    @Test
    void whatLacksACommentIsNamed() throws IOException {
        String source = """
            public record Thing(int size) {
                public Thing {
                }
                /** Said. */
                public static final int SAID = 1;
                public static final int LEAST = 1;
                @Override
                public String toString() {
                    return "";
                }
                public int twice() {
                    return 2 * size;
                }
                void inside() {
                }
                /** A step. */
                public interface Step {
                    void take();
                }
                static class Hidden {
                    public void unseen() {
                    }
                }
            }
            """;
        assertThat(withoutComment(List.of(new SimpleJavaFileObject(URI.create("string:///Thing.java"), JavaFileObject.Kind.SOURCE) {
            @Override
            public CharSequence getCharContent(boolean ignoreEncodingErrors) {
                return source;
            }
        }))).containsExactly("Thing", "Thing.LEAST", "Thing.twice", "Step.take");
    }

    private static List<String> withoutComment(Iterable<? extends JavaFileObject> sources) throws IOException {
        JavacTask task = (JavacTask) COMPILER.getTask(null, null, null, List.of("-proc:none"), null, sources);
        Scanner scanner = new Scanner(DocTrees.instance(task));
        scanner.scan(task.parse(), null);
        return scanner.found;
    }

    /** Goes into public types only, and collects their public members that have no comment. */
    private static final class Scanner extends TreePathScanner<Void, Void> {
        private final DocTrees comments;
        private final List<String> found = new ArrayList<>();

        Scanner(DocTrees comments) {
            this.comments = comments;
        }

        @Override
        public Void visitClass(ClassTree type, Void unused) {
            if (!isPublic(type.getModifiers().getFlags())) {
                return null;
            }
            check(type.getSimpleName().toString());
            return super.visitClass(type, unused);
        }

        @Override
        public Void visitMethod(MethodTree method, Void unused) {
            boolean overrides = method.getModifiers().getAnnotations().stream()
                .anyMatch(annotation -> annotation.getAnnotationType().toString().equals("Override"));
            ClassTree owner = owner();
            boolean ofRecord = owner.getKind() == Tree.Kind.RECORD && method.getName().contentEquals("<init>");
            if (isPublic(method.getModifiers().getFlags()) && !overrides && !ofRecord) {
                check(owner.getSimpleName() + "." + method.getName());
            }
            return null;
        }

        @Override
        public Void visitVariable(VariableTree field, Void unused) {
            if (getCurrentPath().getParentPath().getLeaf() instanceof ClassTree owner && owner.getKind() != Tree.Kind.ENUM
                && isPublic(field.getModifiers().getFlags())) {
                check(owner.getSimpleName() + "." + field.getName());
            }
            return null;
        }

        private boolean isPublic(Set<Modifier> modifiers) {
            TreePath parent = getCurrentPath().getParentPath();
            return modifiers.contains(Modifier.PUBLIC) || modifiers.contains(Modifier.PROTECTED)
                || parent.getLeaf().getKind() == Tree.Kind.INTERFACE && !modifiers.contains(Modifier.PRIVATE);
        }

        private ClassTree owner() {
            return (ClassTree) getCurrentPath().getParentPath().getLeaf();
        }

        private void check(String name) {
            if (comments.getDocComment(getCurrentPath()) == null) {
                found.add(name);
            }
        }
    }
}
