/** Conditions over nets and vectors: the language, its check, and the logic they become. */
package padward.watch.condition;
