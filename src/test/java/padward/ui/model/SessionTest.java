package padward.ui.model;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.CountDownLatch;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.BadInput;
import padward.base.Progress;
import padward.fabric.delay.Corner;
import padward.ui.work.BackgroundWork;
import padward.ui.work.PrefetchTask;

/** What the window remembers, without a window. */
class SessionTest {
    private static final String NET = "pump/level/sample[1]";

    @TempDir Path folder;
    private Path design;

    @BeforeEach
    void copyTheExample() throws Exception {
        try (Stream<Path> files = Files.list(Path.of("fixtures/small"))) {
            for (Path file : files.filter(f -> f.toString().endsWith(".json")).toList()) {
                Files.copy(
                        file,
                        folder.resolve(file.getFileName()),
                        StandardCopyOption.REPLACE_EXISTING);
            }
        }
        design = folder.resolve("only.design.json");
    }

    private KeptChangeStore store = KeptChangeStore.NONE;

    /** The model of a window opened when the last one was closed. */
    private WindowModel model() throws BadInput {
        store.close();
        store = new JournalStore(folder.resolve("settings/kept"));
        return new WindowModel(BackgroundWork.immediate(), store);
    }

    /** The model of a window that goes on from the last session. */
    private WindowModel next() throws BadInput {
        store.close();
        StartupLoader prelude = StartupLoader.begin(folder.resolve("settings"), Optional.empty());
        store = prelude.store();
        WindowModel model = new WindowModel(BackgroundWork.immediate(), store);
        prelude.goOn(model);
        return model;
    }

    private SessionKeeper keeper(WindowModel model) {
        Path file = folder.resolve("settings/session.json");
        SessionKeeper keeper = new SessionKeeper(model, file);
        keeper.follow(() -> Optional.of(new Session.Place(3, 4, 50)), () -> Session.Layout.FIRST);
        return keeper;
    }

    @Test
    void columnsAreSavedWhenTheyAreChangedAndNotOnlyOnClosing() throws Exception {
        WindowModel model = model();
        keeper(model).begin(Session.FIRST);
        model.look()
                .columns()
                .put("routes-table", List.of(new AppearanceModel.Column("pin", 4321, true)));
        assertThat(Files.readString(folder.resolve("settings/session.json"))).contains("4321");
    }

    @Test
    void whatIsWrittenIsRead() throws BadInput {
        Session session =
                new Session(
                        Optional.of("/a/“b”.json"),
                        List.of(new QuestionsModel.Stated("n[1]", "J1.3", Corner.FAST, true)),
                        0,
                        Optional.of(new Session.Place(1.5, 2.25, 33)),
                        true,
                        false,
                        true,
                        18,
                        List.of("/a", "/b"),
                        List.of("n"),
                        List.of("p"),
                        new Session.Layout(
                                Optional.of(new Session.Bounds(-5, 6, 1280.5, 800)),
                                true,
                                Optional.of(0.7),
                                Map.of(
                                        "routes-table",
                                        List.of(
                                                new AppearanceModel.Column("pin", 40, true),
                                                new AppearanceModel.Column("rank", 99.5, false)))));
        Path file = folder.resolve("deep/session.json");
        SessionFile.write(session, file);
        assertThat(SessionFile.read(file).session()).isEqualTo(session);
        assertThat(SessionFile.read(file).fault()).isEmpty();
        SessionFile.write(Session.FIRST, file);
        assertThat(SessionFile.read(file).session()).isEqualTo(Session.FIRST);
    }

    /** Two windows with the same settings: the file is always that of one of them, whole. */
    @Test
    void twoThatWriteAtOnceLeaveOneOfTheirs() throws Exception {
        Path file = folder.resolve("two/session.json");
        List<Thread> writers = new ArrayList<>();
        Queue<Throwable> wrong = new ConcurrentLinkedQueue<>();
        for (String net : List.of("one", "another/with/a/longer/name")) {
            writers.add(
                    new Thread(
                            () -> {
                                try {
                                    for (int i = 0; i < 50; i++) {
                                        SessionRoundTrip.write(net, file);
                                        SessionFile.Read read = SessionFile.read(file);
                                        assertThat(read.fault()).isEmpty();
                                        assertThat(read.session().recentNets())
                                                .isSubsetOf("one", "another/with/a/longer/name")
                                                .hasSize(1);
                                    }
                                } catch (BadInput | AssertionError fault) {
                                    wrong.add(fault);
                                }
                            }));
        }
        writers.forEach(Thread::start);
        for (Thread writer : writers) {
            writer.join();
        }
        assertThat(wrong).isEmpty();
        SessionRoundTrip.write("one", file);
        assertThat(file.getParent().toFile().list()).containsExactly("session.json");
    }

    @Test
    void nothingRememberedIsTheFirstTime() throws BadInput {
        SessionFile.Read read = SessionFile.read(folder.resolve("none.json"));
        assertThat(read.session()).isEqualTo(Session.FIRST);
        assertThat(read.fault()).isEmpty();
    }

    @Test
    void aSpoiltFileIsToldAndDoesNotStopTheWindow() throws Exception {
        Path file = folder.resolve("settings/session.json");
        Files.createDirectories(file.getParent());
        for (String text :
                List.of(
                        "{",
                        "7",
                        "{\"shown\": \"x\"}",
                        "{\"questions\": {}}",
                        "",
                        "null",
                        "{\"place\":{\"x\":1}}",
                        "{\"place\":null}",
                        "{\"place\":{\"x\":1,\"y\":2,\"scale\":null}}",
                        "{\"textSize\":null}",
                        "{\"textSize\":1e99}",
                        "{\"dark\":[]}",
                        "{\"recentFiles\":[{}]}",
                        "[".repeat(100_000))) {
            Files.writeString(file, text);
            assertThat(SessionFile.read(file).fault()).isPresent();
            WindowModel model = next();
            assertThat(model.notes().all().get(0).text()).contains("session.json");
            assertThat(model.openedProperty().get()).isPresent();
        }
    }

    @Test
    void whatIsSoundInASpoiltFileIsUsed() throws Exception {
        Path file =
                Files.writeString(
                        folder.resolve("s.json"),
                        """
                {"file": "/a.json", "dark": true, "textSize": "big", "place": {"x": 1},
                 "questions": [{"net": "n", "pad": "p", "corner": "fast"}, 7, {"net": "m"}],
                 "recentNets": ["n", null, "m"], "recentFiles": ["/a", "b\\u0000"]}
                """);
        SessionFile.Read read = SessionFile.read(file);
        Session session = read.session();
        assertThat(session.file()).contains("/a.json");
        assertThat(session.dark()).isTrue();
        assertThat(session.textSize()).isEqualTo(AppearanceModel.DEFAULT_TEXT);
        assertThat(session.place()).isEmpty();
        assertThat(session.questions())
                .containsExactly(new QuestionsModel.Stated("n", "p", Corner.FAST, false));
        assertThat(session.recentNets()).containsExactly("n", "m");
        assertThat(session.recentFiles()).containsExactly("/a");
        assertThat(read.fault().orElseThrow().place())
                .isEqualTo(
                        "$.file or $.recentFiles, $.place, $.questions, $.recentNets, $.textSize");
    }

    @Test
    void theWindowComesBackAsItWas() throws Exception {
        byte[] before = Files.readAllBytes(design);
        WindowModel model = model();
        SessionKeeper keeper = keeper(model);
        keeper.begin(Session.FIRST);
        model.open(design);
        model.shown().netTextProperty().set(NET);
        model.shown().padTextProperty().set("J1.3");
        model.shown().ask();
        model.shown().tryIt();
        model.shown().acceptedProperty().set(true);
        model.keep();
        model.questions().open(NET);
        model.shown().padTextProperty().set("J1.2");
        model.look().darkProperty().set(true);
        model.look().setTextSize(17);
        keeper.close();

        WindowModel next = next();
        assertThat(next.design().fileProperty().get()).contains(design);
        assertThat(next.questions().stated()).isEqualTo(model.questions().stated());
        assertThat(next.shown().padTextProperty().get()).isEqualTo("J1.2");
        assertThat(next.look().darkProperty().get()).isTrue();
        assertThat(next.look().textSizeProperty().get()).isEqualTo(17);
        assertThat(next.requestedPlaceProperty().get()).contains(new Session.Place(3, 4, 50));
        assertThat(next.recentNets().items()).containsExactly(NET);
        assertThat(next.recentFiles().items()).containsExactly(design.toString());
        assertThat(next.keptProperty().get().orElseThrow().entries()).hasSize(1);
        assertThat(
                        next.openedProperty()
                                .get()
                                .orElseThrow()
                                .design()
                                .findCell("pump/run/motor_out"))
                .isEmpty();
        next.undo();
        assertThat(
                        next.openedProperty()
                                .get()
                                .orElseThrow()
                                .design()
                                .findCell("pump/run/motor_out"))
                .isPresent();
        store.close();
        assertThat(folder.resolve("settings/kept")).isEmptyDirectory();
        assertThat(Files.readAllBytes(design)).isEqualTo(before);
    }

    /** Work that is begun and comes to no end. */
    private static final BackgroundWork HELD_UP =
            new BackgroundWork() {
                @Override
                public <T> Job start(
                        Work<T> work,
                        Watcher watcher,
                        Consumer<T> done,
                        Consumer<Exception> failed) {
                    return () -> {};
                }
            };

    @Test
    void closingWhileTheDesignIsStillReadForgetsNothing() throws Exception {
        Session last =
                new Session(
                        Optional.of(design.toString()),
                        List.of(new QuestionsModel.Stated(NET, "J1.3", Corner.FAST, true)),
                        0,
                        Optional.of(new Session.Place(1, 2, 3)),
                        false,
                        true,
                        14,
                        List.of(design.toString()),
                        List.of(NET),
                        List.of("J1.3"));
        WindowModel model = new WindowModel(HELD_UP, store);
        Path file = folder.resolve("settings/session.json");
        SessionKeeper keeper = new SessionKeeper(model, file);
        keeper.begin(last);
        CountDownLatch never = new CountDownLatch(1);
        keeper.reopen(
                last,
                design,
                new PrefetchTask<>(
                        progress -> {
                            never.await();
                            return DesignStore.reading(Optional.empty(), store).run(progress);
                        }));
        model.look().darkProperty().set(true);
        keeper.close();
        Session written = SessionFile.read(file).session();
        assertThat(written.file()).isEqualTo(last.file());
        assertThat(written.questions()).isEqualTo(last.questions());
        assertThat(written.place()).isEqualTo(last.place());
        assertThat(written.dark()).isTrue();
    }

    @Test
    void closingBeforeTheAnswerKeepsThatItWasAsked() throws Exception {
        List<QuestionsModel.Stated> stated =
                List.of(
                        new QuestionsModel.Stated(NET, "J1.3", Corner.FAST, true),
                        new QuestionsModel.Stated(NET, "J1.2", Corner.SLOW, false));
        WindowModel model = new WindowModel(HELD_UP, store);
        model.design().take(Optional.empty(), read(), () -> {});
        model.questions().restore(stated, 0, () -> {});
        assertThat(model.questions().stated()).isEqualTo(stated);
    }

    private PrefetchTask<DesignStore.Read> read() throws Exception {
        PrefetchTask<DesignStore.Read> result =
                new PrefetchTask<>(DesignStore.reading(Optional.of(design), KeptChangeStore.NONE));
        result.run(Progress.NONE);
        return result;
    }

    @Test
    void aFileOfANameThatCannotBeIsASpoiltSession() throws Exception {
        Path file = folder.resolve("settings/session.json");
        Files.createDirectories(file.getParent());
        Files.writeString(file, "{\"file\": \"a\\u0000b\"}");
        assertThat(SessionFile.read(file).fault()).isPresent();
    }

    @Test
    void whatDoesNotFitAnyMoreIsPutAsideAndTold() throws Exception {
        WindowModel model = model();
        model.open(design);
        model.shown().netTextProperty().set(NET);
        model.shown().padTextProperty().set("J1.3");
        model.shown().ask();
        model.shown().tryIt();
        model.shown().acceptedProperty().set(true);
        model.keep();
        Files.copy(
                folder.resolve("around.design.json"), design, StandardCopyOption.REPLACE_EXISTING);
        Path journal;
        try (Stream<Path> kept = Files.list(folder.resolve("settings/kept"))) {
            journal = kept.filter(f -> f.toString().endsWith(".journal")).findFirst().get();
        }
        Files.writeString(journal, "{");
        WindowModel next = model();
        next.open(design);
        assertThat(next.openedProperty().get()).isPresent();
        assertThat(next.keptProperty().get().orElseThrow().entries()).isEmpty();
        assertThat(next.notes().all().get(0).text())
                .contains("do not fit and are not shown; they are in")
                .contains(".1.old");
        assertThat(journal.resolveSibling(journal.getFileName() + ".1.old")).hasContent("{");
    }

    @Test
    void aFileThatIsNoMoreIsTold() throws BadInput {
        Session session =
                new Session(
                        Optional.of(folder.resolve("gone.json").toString()),
                        List.of(),
                        0,
                        Optional.empty(),
                        false,
                        true,
                        14,
                        List.of(),
                        List.of(),
                        List.of());
        SessionFile.write(session, folder.resolve("settings/session.json"));
        WindowModel model = next();
        assertThat(model.openedProperty().get()).isPresent();
        assertThat(model.design().fileProperty().get()).isEmpty();
        assertThat(model.notes().all().get(0).text()).contains("gone.json no longer exists");
    }

    @Test
    void theLatestStandFirstAndOnce() {
        RecentItems recent = new RecentItems(3);
        for (String item : List.of("a", "b", "a", "c", "d")) {
            recent.add(item);
        }
        assertThat(recent.items()).containsExactly("d", "c", "a");
        recent.forget("c");
        assertThat(recent.items()).containsExactly("d", "a");
    }
}
