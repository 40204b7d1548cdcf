-- Roles of a book on PostgreSQL: one that writes, one that only reads.
--
--   psql -d farm -v writer=ada -v reader=vet -f docs/roles.sql
--
-- Run it as the owner of the database, after the book was begun, and again after a new version
-- of the program has changed the schema. The writer may do every act. It may not take away rows
-- unseen by the journal (TRUNCATE), nor drop a trigger or a table: those stay with the owner,
-- who alone restores a backup and brings a book to a new schema.

\set ON_ERROR_STOP on

SELECT format('CREATE ROLE %I LOGIN', :'writer')
WHERE NOT EXISTS (SELECT 1 FROM pg_roles WHERE rolname = :'writer') \gexec
SELECT format('CREATE ROLE %I LOGIN', :'reader')
WHERE NOT EXISTS (SELECT 1 FROM pg_roles WHERE rolname = :'reader') \gexec

GRANT USAGE ON SCHEMA public TO :"writer", :"reader";
GRANT SELECT ON ALL TABLES IN SCHEMA public TO :"writer", :"reader";
GRANT INSERT, UPDATE, DELETE ON ALL TABLES IN SCHEMA public TO :"writer";
GRANT SELECT, USAGE ON ALL SEQUENCES IN SCHEMA public TO :"writer";
REVOKE UPDATE, DELETE ON journal, journal_place FROM :"writer";
REVOKE INSERT, UPDATE, DELETE ON alembic_version FROM :"writer";
REVOKE INSERT, DELETE ON book FROM :"writer";
