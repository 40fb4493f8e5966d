//! What a statement asks of an engine, in the parser's own names: its kind, clauses, expressions, functions, operators and types.

use std::collections::BTreeSet;
use std::fmt::Debug;
use std::ops::ControlFlow;

use sqlparser::ast::{
    AlterTableOperation, ColumnDef, Expr, GroupByExpr, JoinConstraint, LimitClause, OnInsert, Query, Select, Statement,
    TableFactor, Visit, Visitor,
};

/// Everything that it asks.
pub(super) fn asks(statement: &Statement) -> BTreeSet<String> {
    let mut walk = Walk(BTreeSet::new());
    let _ = statement.visit(&mut walk);
    walk.0
}

struct Walk(BTreeSet<String>);

/// The name of a variant: what its `Debug` form begins with.
fn name(of: &impl Debug) -> String {
    format!("{of:?}").chars().take_while(|letter| letter.is_alphanumeric()).collect()
}

impl Walk {
    fn asks(&mut self, kind: &str, what: impl AsRef<str>) {
        self.0.insert(format!("{kind} {}", what.as_ref()));
    }

    fn if_there(&mut self, clause: &str, is_there: bool) {
        if is_there {
            self.asks("clause", clause);
        }
    }

    fn column(&mut self, column: &ColumnDef) {
        self.asks("type", column.data_type.to_string());
        for option in &column.options {
            self.asks("column", name(&option.option));
        }
    }
}

impl Visitor for Walk {
    type Break = ();

    fn pre_visit_statement(&mut self, statement: &Statement) -> ControlFlow<()> {
        self.asks("statement", name(statement));
        match statement {
            Statement::Insert(insert) => {
                self.if_there("ON CONFLICT", matches!(insert.on, Some(OnInsert::OnConflict(_))));
                self.if_there("RETURNING", insert.returning.is_some());
                self.if_there("OVERRIDING", insert.overriding.is_some());
            }
            Statement::Update(update) => {
                self.if_there("UPDATE FROM", update.from.is_some());
                self.if_there("RETURNING", update.returning.is_some());
            }
            Statement::Delete(delete) => {
                self.if_there("DELETE USING", delete.using.is_some());
                self.if_there("RETURNING", delete.returning.is_some());
            }
            Statement::CreateTable(table) => {
                table.columns.iter().for_each(|column| self.column(column));
                table.constraints.iter().for_each(|constraint| self.asks("table", name(constraint)));
                self.if_there("UNLOGGED", table.unlogged);
                self.if_there("TEMPORARY", table.temporary);
                self.if_there("INHERITS", table.inherits.is_some());
            }
            Statement::CreateIndex(index) => {
                self.if_there("UNIQUE INDEX", index.unique);
                self.if_there("INDEX USING", index.using.is_some());
                self.if_there("partial INDEX", index.predicate.is_some());
                self.if_there("CONCURRENTLY", index.concurrently);
            }
            Statement::AlterTable(table) => {
                for operation in &table.operations {
                    self.asks("alter", name(operation));
                    if let AlterTableOperation::AddColumn { column_def, .. } = operation {
                        self.column(column_def);
                    }
                }
            }
            _ => {}
        }
        ControlFlow::Continue(())
    }

    fn pre_visit_query(&mut self, query: &Query) -> ControlFlow<()> {
        self.asks("query", name(&*query.body));
        self.if_there("WITH", query.with.is_some());
        self.if_there("ORDER BY", query.order_by.is_some());
        self.if_there("LIMIT", query.limit_clause.is_some());
        let offset = matches!(&query.limit_clause, Some(LimitClause::LimitOffset { offset: Some(_), .. }));
        self.if_there("OFFSET", offset || matches!(query.limit_clause, Some(LimitClause::OffsetCommaLimit { .. })));
        self.if_there("FETCH", query.fetch.is_some());
        self.if_there("FOR UPDATE or FOR SHARE", !query.locks.is_empty());
        ControlFlow::Continue(())
    }

    fn pre_visit_select(&mut self, select: &Select) -> ControlFlow<()> {
        self.if_there("DISTINCT", select.distinct.is_some());
        self.if_there("INTO", select.into.is_some());
        self.if_there("HAVING", select.having.is_some());
        self.if_there("WINDOW", !select.named_window.is_empty());
        self.if_there("GROUP BY", !matches!(&select.group_by, GroupByExpr::Expressions(by, _) if by.is_empty()));
        for join in select.from.iter().flat_map(|from| &from.joins) {
            let operator = name(&join.join_operator);
            let text = format!("{:?}", join.join_operator);
            let by = [("On(", "ON"), ("Using(", "USING"), ("Natural", "NATURAL")]
                .iter()
                .find(|(sign, _)| text.contains(sign));
            self.asks(
                "join",
                format!("{operator} {}", by.map_or(name(&JoinConstraint::None), |(_, by)| (*by).to_owned())),
            );
        }
        ControlFlow::Continue(())
    }

    fn pre_visit_table_factor(&mut self, table: &TableFactor) -> ControlFlow<()> {
        self.asks("from", name(table));
        self.if_there("LATERAL", matches!(table, TableFactor::Derived { lateral: true, .. }));
        ControlFlow::Continue(())
    }

    fn pre_visit_expr(&mut self, expr: &Expr) -> ControlFlow<()> {
        self.asks("expression", name(expr));
        match expr {
            Expr::BinaryOp { op, .. } => self.asks("operator", op.to_string()),
            Expr::UnaryOp { op, .. } => self.asks("operator", op.to_string()),
            Expr::Cast { data_type, .. } => self.asks("type", data_type.to_string()),
            Expr::Function(function) => {
                self.asks("function", function.name.to_string().to_lowercase());
                self.if_there("OVER", function.over.is_some());
                self.if_there("FILTER", function.filter.is_some());
            }
            _ => {}
        }
        ControlFlow::Continue(())
    }
}
