package padward.docs;

import static org.assertj.core.api.Assertions.assertThat;

import com.sun.source.tree.AnnotationTree;
import com.sun.source.tree.BinaryTree;
import com.sun.source.tree.CompilationUnitTree;
import com.sun.source.tree.LiteralTree;
import com.sun.source.tree.ParenthesizedTree;
import com.sun.source.tree.Tree;
import com.sun.source.util.JavacTask;
import com.sun.source.util.TreeScanner;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import javax.tools.JavaCompiler;
import javax.tools.StandardJavaFileManager;
import javax.tools.ToolProvider;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/**
 * All texts that a user can see, collected from the sources by the Java compiler's own parser, and
 * what holds for each of them. They are written to {@code target/visible-texts.txt}, to be read
 * from top to bottom.
 */
class VisibleTextsTest {
    private static final Path SOURCES = Path.of("src/main/java");
    private static final Path LIST = Path.of("target/visible-texts.txt");

    /** What stands where a value is put in. */
    private static final String VALUE = "{}";

    /**
     * Words with several senses, or with another one in the trade; docs/words.md has better ones.
     */
    private static final Pattern AVOIDED =
            Pattern.compile(
                    "\\b(ways?|held|lets? go|gives? up|spare|costly|reckon\\w*|anew|clearance|is told"
                            + "|are told|laid|multiplexer group)\\b",
                    Pattern.CASE_INSENSITIVE);

    /** Fixed expressions in which "way" has its plain sense. */
    private static final Pattern IDIOM =
            Pattern.compile("\\b(either|both|in the|on its|on their|under) way\\w*\\b|two-way");

    private static List<Text> texts = List.of();

    private record Text(String file, String text) {
        @Override
        public String toString() {
            return file + ": " + text;
        }
    }

    @BeforeAll
    static void collect() throws IOException {
        texts = new Collector().all();
        Files.createDirectories(LIST.getParent());
        Files.write(LIST, texts.stream().map(Text::toString).toList(), StandardCharsets.UTF_8);
    }

    @Test
    void theyAreFound() {
        assertThat(texts).hasSizeGreaterThan(3000);
        assertThat(texts).extracting(Text::text).contains("Nothing loses its signal.");
    }

    @Test
    void noneHasAWordThatIsAvoided() {
        assertThat(texts)
                .filteredOn(t -> AVOIDED.matcher(IDIOM.matcher(t.text()).replaceAll("")).find())
                .isEmpty();
    }

    /**
     * Where a rule of the trade comes from is for docs/sources.md, not for who stands at the bench.
     */
    @Test
    void noneCitesItsSource() {
        assertThat(texts)
                .filteredOn(
                        t -> t.text().matches("(?s).*(from memory|common practice|no source).*"))
                .isEmpty();
    }

    @Test
    void noneDoublesAWordOrASpace() {
        Pattern word = Pattern.compile("\\b([a-z]+) \\1\\b");
        assertThat(texts).filteredOn(t -> repeats(word.matcher(t.text()))).isEmpty();
        assertThat(texts)
                .filteredOn(t -> t.text().strip().matches("(?s).*[a-z.,;:]  [A-Za-z].*"))
                .filteredOn(t -> !t.text().contains("padward "))
                .isEmpty();
    }

    private static boolean repeats(Matcher word) {
        while (word.find()) {
            if (!word.group(1).equals("that") && !word.group(1).equals("had")) {
                return true;
            }
        }
        return false;
    }

    /**
     * Parses all sources; only texts with a word of several letters and a space or a capital count.
     */
    private static final class Collector extends TreeScanner<Void, String> {
        private final List<Text> found = new ArrayList<>();

        List<Text> all() throws IOException {
            JavaCompiler compiler = ToolProvider.getSystemJavaCompiler();
            try (StandardJavaFileManager files =
                            compiler.getStandardFileManager(null, null, StandardCharsets.UTF_8);
                    Stream<Path> sources = Files.walk(SOURCES)) {
                List<Path> java =
                        sources.filter(p -> p.toString().endsWith(".java")).sorted().toList();
                JavacTask task =
                        (JavacTask)
                                compiler.getTask(
                                        null,
                                        files,
                                        null,
                                        List.of("-proc:none"),
                                        null,
                                        files.getJavaFileObjectsFromPaths(java));
                for (CompilationUnitTree unit : task.parse()) {
                    scan(unit, Path.of(unit.getSourceFile().toUri()).getFileName().toString());
                }
            }
            return List.copyOf(found);
        }

        @Override
        public Void visitAnnotation(AnnotationTree annotation, String file) {
            boolean isForReaders =
                    !annotation.getAnnotationType().toString().equals("SuppressWarnings");
            return isForReaders ? super.visitAnnotation(annotation, file) : null;
        }

        @Override
        public Void visitLiteral(LiteralTree literal, String file) {
            if (literal.getValue() instanceof String text) {
                add(file, text);
            }
            return null;
        }

        @Override
        public Void visitBinary(BinaryTree sum, String file) {
            if (!isText(sum)) {
                return super.visitBinary(sum, file);
            }
            StringBuilder text = new StringBuilder();
            append(sum, text, file);
            add(file, text.toString());
            return null;
        }

        /** A sum as one text, each value as its mark; what stands inside of values is scanned. */
        private void append(Tree part, StringBuilder text, String file) {
            if (part instanceof LiteralTree literal) {
                text.append(literal.getValue());
            } else if (part instanceof BinaryTree sum && isText(sum)) {
                append(sum.getLeftOperand(), text, file);
                append(sum.getRightOperand(), text, file);
            } else {
                text.append(VALUE);
                scan(part, file);
            }
        }

        private static boolean isText(Tree tree) {
            if (tree instanceof LiteralTree literal) {
                return literal.getValue() instanceof String;
            }
            if (tree instanceof ParenthesizedTree inner) {
                return isText(inner.getExpression());
            }
            return tree instanceof BinaryTree sum
                    && sum.getKind() == Tree.Kind.PLUS
                    && (isText(sum.getLeftOperand()) || isText(sum.getRightOperand()));
        }

        private void add(String file, String text) {
            if (text.matches("(?s).*[a-z]{2}.* .*") || text.matches("(?s)[A-Z][a-z]+.*")) {
                found.add(new Text(file, text));
            }
        }
    }
}
