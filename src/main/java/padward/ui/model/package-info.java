/**
 * What the window knows, without any control: the design, the questions, what is kept, work that
 * goes on, what is remembered from one time to the next.
 */
package padward.ui.model;
